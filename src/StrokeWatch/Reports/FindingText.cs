using System.Globalization;
using StrokeWatch.Assessment.Watching;

namespace StrokeWatch.Reports;

/// <summary>A finding of the daemon in lines for people, as a replay of several captures prints its own.</summary>
internal static class FindingText
{
    /// <summary>Gives the lines: what is wrong, the evidence, what to check in which order, what would confirm it and what would tell two causes apart.</summary>
    public static IReadOnlyList<string> Lines(WatchFinding finding)
    {
        var sure = finding.Confidence is { } share ? string.Create(CultureInfo.InvariantCulture, $", confidence {100 * share:0} %") : "";
        List<string> lines = [$"over time   {finding.Words} ({finding.Id}{sure})", .. finding.Because.Select(because => $"            {because}")];
        lines.AddRange(finding.CheckFirst.Select((check, i) => string.Create(CultureInfo.InvariantCulture, $"            {i + 1}. {check}")));
        lines.AddRange(new[] { finding.Confirm, finding.TellApart }.OfType<string>().Select(text => $"            {text}"));
        return lines;
    }
}
