namespace StrokeWatch.Outputs.Mqtt.Sparkplug;

/// <summary>The kinds of values that are used here, with the numbers of the specification's proto file.</summary>
internal enum SparkplugType
{
    /// <summary>A whole number of 64 bits.</summary>
    Int64 = 4,

    /// <summary>A number.</summary>
    Double = 10,

    /// <summary>True or false.</summary>
    Boolean = 11,

    /// <summary>Text.</summary>
    String = 12,
}
