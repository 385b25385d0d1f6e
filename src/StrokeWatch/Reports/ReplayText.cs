using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports;

/// <summary>Writes a replay for a person.</summary>
internal static class ReplayText
{
    /// <summary>Writes the summary of one replay.</summary>
    public static void Write(TextWriter writer, ReplayResult result)
    {
        var report = result.Report;
        var stroke = report.Stroke;
        void Line(FormattableString text) => writer.WriteLine(text.ToString(CultureInfo.InvariantCulture));

        Line($"{report.Feeder.Name}, {result.File}");
        Line($"  capture    {result.DurationSeconds:0.0} s, {Counted.Of(result.Counters.Samples, "sample")} at {result.RateHz:0.##} Hz ({result.Source.Format}), {Counted.Of(result.Counters.Gaps, "gap")}, {report.ClippedSamples} clipped");
        if (StampUses.Words(StampUses.Of(result.Source, report)) is { } stamps)
        {
            Line($"  times      {stamps}");
        }

        foreach (var (reason, count) in result.Counters.Rejected)
        {
            Line($"  rejected   {Counted.Of(count, "row")}: {reason}");
        }

        foreach (var guess in result.Guesses)
        {
            Line($"  guessed    {guess}");
        }

        if (report.FrequencyHz is { } hertz)
        {
            var clock = ClockSource.Error(result.Source, report) is { } error ? string.Create(CultureInfo.InvariantCulture, $", sensor clock off by {1e6 * error:+0;-0;0} ppm") : "";
            Line($"  drive      {hertz:0.00} Hz ({ClockSource.Words(result.Source, report)}{clock})");
        }

        if (stroke is { Stroke: { } measured, Uncertainty: { } uncertainty })
        {
            Line($"  stroke     {Length.FromMetres(measured)} ± {Length.FromMetres(uncertainty).RoundedUp()} peak to peak, k = 2");
            Line($"  windows    {report.Windows.Count}, {report.Count(WindowQuality.Good)} good; smallest {Length.FromMetres(stroke.Least!.Value)}, largest {Length.FromMetres(stroke.Most!.Value)}");
        }

        if (stroke.AtLeast is { } least)
        {
            Line($"  bound      at least {Length.FromMetres(least)} where the sensor {(report.Count(WindowQuality.Clipped) is > 0 and var cut ? $"clips ({Counted.Of(cut, "window")})" : "may clip")}; how much more cannot be told");
        }

        if (stroke.LineAngleDegrees is { } angle)
        {
            var spread = report.Feeder.LineAngleDegrees is null && report.Mounting?.LineUncertaintyDegrees is { } known ? string.Create(CultureInfo.InvariantCulture, $" ± {known:0.0}°") : "";
            Line($"  line       {angle:0.0}°{spread} above the x axis, ellipse ratio {stroke.EllipseRatio ?? 0:0.000}");
        }

        if (MountingText.Words(report.Mounting) is { } mounting)
        {
            Line($"  mounting   {mounting}");
        }

        if (report.Feeder.Sensor.Calibration is { } calibration)
        {
            Line($"  sensor     calibrated: {calibration}, {100 * calibration.ExpandedUncertainty:0.###} % (k = 2)");
        }

        SensorsText.Write(writer, report);
        SupplyText.Write(writer, report);
        Line($"  band       {report.Feeder.Band.Low} to {report.Feeder.Band.High}, limit {report.Feeder.Band.Limit}");
        Line($"  verdict    {Words(stroke.Verdict)}{(stroke.Reason is null ? "" : ": " + stroke.Reason)}{(report.Supply?.Words is { } voltage ? $" ({voltage})" : "")}");
        Line($"  strike     {(report.Strike.Found ? string.Create(CultureInfo.InvariantCulture, $"YES, from {report.Strike.FirstSeconds:0.0} s, {Counted.Of(report.Strike.Windows, "window")}. Stop the feeder.") : report.Strike.ScoreMax is null ? "could not be judged" : Heard(report.Strike) + (report.Strike.Open ? ", but " + Open(report.Strike) : ""))}");
        foreach (var decay in report.Decays)
        {
            Line($"  coast-down at {decay.StartSeconds:0.0} s: {TransientWords.Of(decay)}");
        }

        foreach (var start in report.Starts)
        {
            Line($"  start      at {start.StartSeconds:0.0} s: {TransientWords.Of(start)}");
        }

        foreach (var (raised, cleared) in ReplayJson.Pairs(report.Transitions))
        {
            var until = cleared is { } end ? string.Create(CultureInfo.InvariantCulture, $"{end.AtSeconds:0.0} s") : "the end";
            Line($"  alarm      {raised.AtSeconds:0.0} s to {until}: {raised.Words}");
        }

        foreach (var finding in result.Findings)
        {
            Line($"  finding    {finding.Id} (confidence {100 * finding.Confidence:0} %)");
            foreach (var because in finding.Because)
            {
                Line($"             {because}");
            }

            for (var i = 0; i < finding.CheckFirst.Count; i++)
            {
                Line($"             {i + 1}. {finding.CheckFirst[i]}");
            }
        }

        if (result.Contributions.SensitivityAssumed && stroke.Stroke is not null)
        {
            Line($"  note       {Assumptions.Of(report.Feeder)}");
        }
    }

    /// <summary>Says in how many windows a strike was heard, where none was found.</summary>
    private static string Heard(StrikeSummary strike) => strike.Windows == 0
        ? "none heard"
        : string.Create(CultureInfo.InvariantCulture, $"heard in {strike.Windows} of {Counted.Of(strike.Judged, "window")}, as chance alone may do");

    /// <summary>Says of how many windows a strike cannot be ruled out.</summary>
    internal static string Open(StrikeSummary strike) =>
        string.Create(CultureInfo.InvariantCulture, $"one cannot be ruled out in {strike.Possible} of {Counted.Of(strike.Judged, "window")}; a higher sampling rate tells more");

    /// <summary>Gives a verdict in words.</summary>
    internal static string Words(Verdict verdict) => verdict switch
    {
        Verdict.InBand => "in band",
        Verdict.Low => "LOW",
        Verdict.High => "HIGH",
        Verdict.OverStroke => "OVER-STROKE. Stop the feeder",
        Verdict.Stopped => "stopped",
        _ => "UNMEASURABLE",
    };
}
