namespace StrokeWatch.Reports.Html;

/// <summary>The unit in which a span of time is best read.</summary>
/// <param name="Seconds">Seconds in one unit.</param>
/// <param name="Symbol">The unit's symbol.</param>
internal readonly record struct TimeAxis(double Seconds, string Symbol)
{
    /// <summary>Chooses the unit for a span in seconds.</summary>
    public static TimeAxis For(double span) => span switch
    {
        <= 180 => new(1, "s"),
        <= 3 * 3600 => new(60, "min"),
        <= 3 * 86400 => new(3600, "h"),
        _ => new(86400, "d"),
    };
}
