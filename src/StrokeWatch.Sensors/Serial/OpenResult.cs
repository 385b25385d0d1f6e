namespace StrokeWatch.Sensors.Serial;

/// <summary>An opened byte source, or why there is none.</summary>
/// <param name="Source">The source; null where it could not be opened.</param>
/// <param name="Fault">Why not.</param>
/// <param name="Message">One line for people: what, where, what to do; empty where all is well.</param>
public readonly record struct OpenResult(IByteSource? Source, OpenFault Fault, string Message)
{
    /// <summary>Gives the result for a source that was opened.</summary>
    public static OpenResult Opened(IByteSource source) => new(source, OpenFault.None, string.Empty);

    /// <summary>Gives the result for a port that was not opened; <paramref name="detail"/> is what the system said.</summary>
    public static OpenResult Failed(OpenFault fault, string path, string detail) => new(null, fault, fault switch
    {
        OpenFault.Missing => $"serial port {path}: not there; plug the sensor in, or correct the path (a path under /dev/serial/by-id stays the same)",
        OpenFault.NoPermission => $"serial port {path}: no permission; add this user to the group that owns the port, usually dialout, and log in again",
        OpenFault.Busy => $"serial port {path}: in use by another program; close that program",
        OpenFault.NotAPort => $"serial port {path}: not a serial port; give the path of a tty device",
        OpenFault.BaudRate => $"serial port {path}: {detail}; choose a rate that sensor and adapter both know",
        _ => $"serial port {path}: {detail}; check cable and adapter",
    });
}
