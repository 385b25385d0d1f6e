namespace StrokeWatch.Sensors.Serial;

/// <summary>Why a port could not be opened.</summary>
public enum OpenFault
{
    /// <summary>It was opened.</summary>
    None,

    /// <summary>There is no such device at present.</summary>
    Missing,

    /// <summary>This user may not open it.</summary>
    NoPermission,

    /// <summary>Another program has it.</summary>
    Busy,

    /// <summary>The path is no serial port.</summary>
    NotAPort,

    /// <summary>The device does not do this baud rate.</summary>
    BaudRate,

    /// <summary>Anything else; the message says what the system said.</summary>
    Other,
}
