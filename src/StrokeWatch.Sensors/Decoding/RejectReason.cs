namespace StrokeWatch.Sensors.Decoding;

/// <summary>Why bytes from a sensor were turned down: the closed list, in the order in which the checks are made.</summary>
internal enum RejectReason
{
    /// <summary>Bytes before the first good frame or line after a port was opened: the listener joined in the middle.</summary>
    Joining,

    /// <summary>A run of bytes that does not even begin like a frame.</summary>
    Rubbish,

    /// <summary>A length that no frame or line can have, or that disagrees with what is inside, or a frame cut short.</summary>
    Length,

    /// <summary>A kind, flag, set of axes or sample format that this version does not know.</summary>
    Frame,

    /// <summary>A check sum that does not agree.</summary>
    Checksum,

    /// <summary>Another number of columns than the line format says.</summary>
    Columns,

    /// <summary>Text where a number should be.</summary>
    Number,

    /// <summary>A value that cannot be: no rate, no scale, NaN, or far beyond full scale.</summary>
    Range,

    /// <summary>An axis that the configuration asks for and the sensor does not send.</summary>
    Axes,

    /// <summary>A frame that was seen before.</summary>
    Order,
}
