using System.Globalization;

namespace StrokeWatch.Samples.Quantities;

/// <summary>Counts of things in words.</summary>
public static class Counted
{
    /// <summary>Gives a count and its noun, which takes an s unless there is one: "1 window", "0 windows".</summary>
    /// <param name="count">How many, 0 and up.</param>
    /// <param name="noun">The noun for one.</param>
    public static string Of(long count, string noun) => string.Create(CultureInfo.InvariantCulture, $"{count} {noun}{(count == 1 ? "" : "s")}");
}
