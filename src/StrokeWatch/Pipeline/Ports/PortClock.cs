namespace StrokeWatch.Pipeline.Ports;

/// <summary>Where a device's own time stands on the host's monotonic clock, told by when its samples arrive.</summary>
/// <remarks>
/// Samples never arrive before they are taken, and delays only add: the smallest difference seen is nearest the truth. It may grow again by 2 % of the time that passes,
/// so that a device whose clock is off by the usual 1 % (common practice, no source) is followed.
/// </remarks>
internal sealed class PortClock
{
    private const double MostDrift = 0.02;

    /// <summary>Beyond this the device's time has jumped, as it does after a gap of unknown length.</summary>
    private const double Jump = 1;

    private double offset = double.NaN;
    private double last;

    /// <summary>Notes that samples up to a time of the device had come at a time of the host, both in seconds.</summary>
    public void Note(double device, double host)
    {
        var seen = host - device;
        var grown = offset + MostDrift * Math.Max(0, device - last);
        offset = double.IsNaN(offset) || Math.Abs(seen - offset) > Jump ? seen : Math.Min(seen, grown);
        last = device;
    }

    /// <summary>Gives the host's time of a time of the device.</summary>
    public double Host(double device) => device + offset;
}
