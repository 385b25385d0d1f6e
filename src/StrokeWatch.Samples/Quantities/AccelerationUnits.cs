namespace StrokeWatch.Samples.Quantities;

/// <summary>The names and scales of acceleration units.</summary>
public static class AccelerationUnits
{
    /// <summary>Gives the factor from a unit to m/s²; counts have none of their own and give null.</summary>
    public static double? Scale(AccelerationUnit unit) => unit switch
    {
        AccelerationUnit.MetresPerSecondSquared => 1,
        AccelerationUnit.MillimetresPerSecondSquared => 1e-3,
        AccelerationUnit.G => Gravity.Standard,
        AccelerationUnit.MilliG => Gravity.Standard * 1e-3,
        AccelerationUnit.KiloG => Gravity.Standard * 1e3,
        _ => null,
    };

    /// <summary>Gives a unit's name as headers and options write it.</summary>
    public static string Name(AccelerationUnit unit) => unit switch
    {
        AccelerationUnit.MetresPerSecondSquared => "m_s2",
        AccelerationUnit.MillimetresPerSecondSquared => "mm_s2",
        AccelerationUnit.G => "g",
        AccelerationUnit.MilliG => "mg",
        AccelerationUnit.KiloG => "kilo_g",
        _ => "counts",
    };

    /// <summary>Reads a unit's name, also in the spellings m/s2, m/s², m/s^2, mm/s2 and kg for kilo-g in shock work.</summary>
    public static bool TryParse(ReadOnlySpan<char> text, out AccelerationUnit unit)
    {
        AccelerationUnit? found = text.Trim().ToString().ToLowerInvariant() switch
        {
            "m_s2" or "m/s2" or "m/s^2" or "m/s²" or "ms2" or "m/s/s" or "ms-2" or "ms^-2" or "m*s^-2"
                or "m/sec2" or "m/sec^2" or "m/sec²" or "m/s**2" => AccelerationUnit.MetresPerSecondSquared,
            "mm_s2" or "mm/s2" or "mm/s^2" or "mm/s²" or "mm/s/s" => AccelerationUnit.MillimetresPerSecondSquared,
            "g" or "gn" or "g_n" or "g's" or "gs" or "gee" or "gees" => AccelerationUnit.G,
            "mg" or "milli_g" => AccelerationUnit.MilliG,
            "kilo_g" or "kg" => AccelerationUnit.KiloG,
            "counts" or "count" or "lsb" or "raw" => AccelerationUnit.Counts,
            _ => null,
        };
        unit = found ?? default;
        return found.HasValue;
    }
}
