namespace StrokeWatch.Commands;

/// <summary>Touches a serial port to see whether the daemon could use it.</summary>
internal interface IPortProbe
{
    /// <summary>Gives what stands in the way and what to do, in a sentence; null where the port can be used.</summary>
    string? Trouble(string port);
}
