namespace StrokeWatch.Sensors.Serial;

/// <summary>What a byte source answered.</summary>
public enum ReadStatus
{
    /// <summary>Bytes have come.</summary>
    Data,

    /// <summary>No byte has come within the source's patience of about 0.2 s.</summary>
    Nothing,

    /// <summary>The source is gone for good: close it and open it anew.</summary>
    Closed,
}
