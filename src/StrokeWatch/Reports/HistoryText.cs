using System.Globalization;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
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

        Causes(output, history);
    }

    /// <summary>Writes what the history points to and what to check first.</summary>
    private static void Causes(TextWriter output, HistoryReport history)
    {
        var findings = HistoryRules.Look(history);
        if (findings.Count == 0)
        {
            output.WriteLine("  over time   the machine is as it was; nothing points to a fault");
        }

        foreach (var finding in findings)
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  over time   {finding.Words} ({finding.Id}, confidence {100 * finding.Confidence:0} %)"));
            foreach (var because in finding.Because)
            {
                output.WriteLine($"              {because}");
            }

            foreach (var (number, check) in finding.CheckFirst.Index())
            {
                output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"              {number + 1}. {check}"));
            }

            output.WriteLine($"              {finding.Confirm}");
            if (finding.TellApart is { } apart)
            {
                output.WriteLine($"              {apart}");
            }
        }
    }

    private static string Words(double metres)
    {
        var stroke = Length.FromMetres(metres);
        return string.Create(CultureInfo.InvariantCulture, $"{stroke.Millimetres:0.000} mm ({stroke.Millimetres / 25.4:0.0000} in)");
    }
}
