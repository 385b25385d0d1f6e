using System.Globalization;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The tray moves on an ellipse instead of a line: it rocks, a clamp is loose, or the sensor stands askew.</summary>
internal sealed class WideEllipse : IRule
{
    private const double Wide = 0.15;

    public string Id => "wide-ellipse";

    public Finding? Look(AssessmentReport report) => report.Stroke.EllipseRatio is not { } ratio || ratio < Wide ? null : new(
        Id,
        Math.Clamp(0.5 + ratio, 0.5, 0.9),
        [string.Create(CultureInfo.InvariantCulture, $"Across its line of action the tray still moves {100 * ratio:0} % of the stroke (ellipse ratio {ratio:0.00}).")],
        [
            Rules.Isolate,
            "Check the sensor's screw first: a loose sensor draws ellipses of its own.",
            "Then look for a loose clamp or a cracked leaf, and for a tray that rocks: compare the stroke front and rear, left and right.",
        ]);
}
