using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Session;

/// <summary>Makes a trial of a capture, by the same chain as <c>replay</c>, and of what a chain reported.</summary>
internal static class TrialMeter
{
    /// <summary>Measures a capture; where it cannot be read the trouble says why, in one line.</summary>
    public static (SessionReading? Reading, string? Trouble) Capture(string file, FeederDescription feeder)
    {
        try
        {
            using var source = CaptureFile.Open(file, SensorChannels.Wanted(feeder));
            var result = Replayer.Run(file, source, feeder, new AlarmDelays());
            return (Of(result.Report, result.Features, file), null);
        }
        catch (CaptureException trouble)
        {
            return (null, trouble.Message);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return (null, $"{file}: cannot be read ({trouble.Message.TrimEnd('.').ReplaceLineEndings(" ")}); name a CSV, TSV or WAV file");
        }
    }

    /// <summary>Gives the trial of a report; its stacks are left to the session.</summary>
    public static SessionReading Of(AssessmentReport report, CaptureFeatures features, string? capture)
    {
        bool? strike = report.Strike.Found ? true : report.Strike.ScoreMax is null ? null : false;
        var verdict = Names.Of(report.Stroke.Verdict);
        var alarmed = report.Transitions.Any(transition => transition is { Raised: true, Kind: AlarmKind.OverStroke or AlarmKind.Strike });
        return new(
            new()
            {
                Utc = default,
                Rear = "",
                StrokeMetres = features.Stroke,
                UncertaintyMetres = features.StrokeUncertainty,
                StrokeSpread = features.Stroke is null ? null : Math.Max(TrialCaptures.LeastSpread, features.StrokeScatter ?? 0),
                Verdict = verdict,
                Reason = features.Stroke is null ? report.Stroke.Reason : null,
                NaturalHz = features.NaturalHz,
                NaturalUncertaintyHz = features.NaturalUncertaintyHz,
                DampingRatio = features.DampingRatio,
                VoltageRatio = features.SupplyShare,
                Capture = capture,
                LineAngleDegrees = features.LineAngleDegrees,
                Strike = strike,
            },
            alarmed || SessionMachine.Dangerous(verdict, strike));
    }
}
