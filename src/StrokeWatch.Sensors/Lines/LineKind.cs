namespace StrokeWatch.Sensors.Lines;

/// <summary>What a text line turned out to be.</summary>
internal enum LineKind
{
    /// <summary>A sample.</summary>
    Sample,

    /// <summary>An empty line or a remark.</summary>
    Remark,

    /// <summary>Names of columns.</summary>
    Header,

    /// <summary>Another number of columns than asked for.</summary>
    WrongColumns,

    /// <summary>Text where a number should be.</summary>
    WrongNumber,
}
