using System.Globalization;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Reports.Html;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports.Records;

/// <summary>The section on the baseline in force.</summary>
internal static class BaselinePart
{
    private static readonly string[] Columns = ["Feature", "Mean", "Spread (k = 1)", "In inches", "Readings"];

    /// <summary>Makes the section.</summary>
    public static RecordSection Make(RecordInput input)
    {
        const string Heading = "Baseline: what healthy is";
        if (input.Baselines.Current is not { } baseline)
        {
            return new(Heading, [new RecordText("There is no baseline yet: what healthy is has neither been learned nor told, so changes over time cannot be judged against it.")]);
        }

        var earlier = input.Baselines.Versions.Count - 1;
        return new(Heading,
        [
            new RecordText(
                $"Version {Figure.Count(baseline.Version)}, {(baseline.Origin == BaselineOrigin.Learned ? "learned from the running machine" : "told at commissioning")}, made {RecordDates.Minute(baseline.Made)}"
                + $"{(baseline.Note is { } note ? $" ({note})" : "")}.{(earlier > 0 ? $" {Figure.Count(earlier)} earlier version{(earlier == 1 ? " is" : "s are")} kept." : "")}"),
            new RecordTable(Columns, [.. baseline.Features.Select(Row)]),
            new RecordText("Features by the names that they have in the JSON documents and the store; the end of a name is its unit, names without one are ratios.", RecordTextKind.Detail),
        ]);
    }

    private static IReadOnlyList<string> Row(BaselineFeature feature) =>
    [
        feature.Name,
        Number(feature.Mean),
        Number(feature.Spread),
        feature.Name.EndsWith("_mm", StringComparison.Ordinal)
            ? $"{Figure.Inches(Length.FromMillimetres(feature.Mean).Metres)} in, spread {Figure.Inches(Length.FromMillimetres(feature.Spread).Metres, 5)} in"
            : "",
        feature is { Count: { } count, From: { } from, To: { } to }
            ? $"{Figure.Count(count)}, {RecordDates.Short(from)} to {RecordDates.Short(to)}{(feature.SetAside > 0 ? $", {Figure.Count(feature.SetAside)} set aside as wild" : "")}"
            : "told",
    ];

    private static string Number(double value) => value.ToString("0.######", CultureInfo.InvariantCulture).Replace('-', '\u2212');
}
