using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>The reading that a record ends with: of the newest capture, else of the last window in the store, else of the last trial.</summary>
/// <param name="Stroke">The stroke in metres; null where none was measured.</param>
/// <param name="Uncertainty">Its expanded uncertainty (k = 2) in metres; null where it is not known.</param>
/// <param name="Verdict">Where it lies.</param>
/// <param name="Reason">Why there is no stroke, or why the verdict is not that of the stroke itself; null otherwise.</param>
/// <param name="Strike">What is known of armature strike.</param>
/// <param name="StrikeFound">Whether the armature strikes.</param>
/// <param name="Source">What it was read from, a sentence.</param>
internal sealed record FinalReading(double? Stroke, double? Uncertainty, Verdict Verdict, string? Reason, string Strike, bool StrikeFound, string Source)
{
    private const string NotJudged = "Could not be judged";

    /// <summary>Finds it.</summary>
    public static FinalReading Of(RecordInput input)
    {
        if (input.Final is { } capture)
        {
            var (stroke, strike) = (capture.Report.Stroke, capture.Report.Strike);
            var date = capture.Date is { } known
                ? $", recorded {RecordDates.Minute(known.Recorded)}{(known.Assumed ? " (assumed: the file's own time)" : "")}"
                : ", of no known date";
            return new(stroke.Stroke, stroke.Uncertainty, stroke.Verdict, stroke.Reason, ReportWords.Of(strike), strike.Found, $"Read from the capture {capture.File}{date}.");
        }

        if (input.History?.Last is { } window)
        {
            var strike = window.Reading.Strike ? "Strike heard. Stop the feeder" : window.Reading.StrikeScore is { } score ? $"None heard (score {Figure.Of(score, 2)}; 1 is the threshold)" : NotJudged;
            return new(
                window.Reading.StrokeMetres, window.Reading.UncertaintyMetres, window.Verdict, null, strike, window.Reading.Strike,
                $"One window, the last that counts in the store, of {RecordDates.Minute(window.Utc)}; no capture was given.");
        }

        if (input.Trials.Count > 0 && input.Trials[^1].StrokeMetres is { } tried)
        {
            var heard = input.TrialStrike switch { true => "Strike heard. Stop the feeder", false => "None heard", _ => NotJudged };
            return new(tried, input.TrialUncertainty, new BandJudge(input.Feeder.Band).Place(tried), null, heard, input.TrialStrike == true, "The last trial's; no capture was given, and nothing that counts was found in a store.");
        }

        return new(null, null, Verdict.Unmeasurable, "nothing that holds a stroke was given: no capture, no trial, and no store with a window that counts", NotJudged, false, "There is no reading.");
    }

    /// <summary>Gives the block for the head of the record.</summary>
    public RecordReading Block() => new(
        Stroke is { } metres ? $"{Figure.Millimetres(metres)} mm" : ReportWords.NoStroke,
        Stroke is { } same ? $"{Figure.Inches(same)} in" : "",
        Uncertainty is { } spread ? ReportWords.Expand(spread) : Stroke is null ? "" : "Its uncertainty is not known.",
        ReportWords.Of(Verdict),
        Reason is { Length: > 0 } why ? $"{char.ToUpperInvariant(why[0])}{why[1..].TrimEnd('.')}." : "",
        Assessment.Names.Of(Verdict),
        Strike,
        StrikeFound);
}
