namespace StrokeWatch.Sensors.Converters;

/// <summary>The ranges in V that converters can be set to.</summary>
public static class ConverterRanges
{
    /// <summary>Gets those of the ADS1115, by the code of its gain (data sheet SBAS444, table of the bits PGA, from memory).</summary>
    public static IReadOnlyList<double> Ads1115 { get; } = [6.144, 4.096, 2.048, 1.024, 0.512, 0.256];
}
