using System.Globalization;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports;

/// <summary>Writes the history of several captures for people: a line a capture in order of date.</summary>
internal static class HistoryText
{
    /// <summary>Writes the lines; nothing where there is no history.</summary>
    public static void Write(TextWriter output, IReadOnlyList<ReplayResult> results)
    {
        if (Histories.Of(results) is not { } history)
        {
            return;
        }

        output.WriteLine("history     in order of date");
        foreach (var point in history.Points)
        {
            var features = point.Features;
            var stroke = features.Stroke is { } metres ? Words(metres) : "no stroke";
            var natural = features.NaturalHz is { } hertz ? string.Create(CultureInfo.InvariantCulture, $", natural frequency {hertz:0.00} Hz") : "";
            output.WriteLine($"  {RecordedDate.Text(point.Recorded)}  {stroke}{natural}{(point.DateAssumed ? " (date assumed: the file's own time)" : "")}");
        }
    }

    private static string Words(double metres)
    {
        var stroke = Length.FromMetres(metres);
        return string.Create(CultureInfo.InvariantCulture, $"{stroke.Millimetres:0.000} mm ({stroke.Millimetres / 25.4:0.0000} in)");
    }
}
