using MathNet.Numerics.Statistics;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Gathers windows, decays and alarms as they come and sums them up at the end.</summary>
public sealed class ReportBuilder(FeederDescription feeder)
{
    private readonly WindowList windows = new();
    private readonly List<DecayReading> decays = [];
    private readonly List<StartReading> starts = [];
    private readonly List<AlarmTransition> transitions = [];
    private readonly SeveralBuilder several = new();
    private readonly ThinnedLevels levels = new();
    private readonly SupplyBuilder supply = new();

    /// <summary>Takes a window with its verdict.</summary>
    public void Add(in AssessedWindow window)
    {
        windows.Add(window);
        supply.Add(window);
        if (window.Reading.Levels is { } heard)
        {
            levels.Add(heard);
        }
    }

    /// <summary>Takes what several sensors showed in a window.</summary>
    public void Add(in SeveralReading reading) => several.Add(reading);

    /// <summary>Takes a free decay.</summary>
    public void Add(in DecayReading decay) => decays.Add(decay);

    /// <summary>Takes what the beat of a start told.</summary>
    public void Add(in StartReading start) => starts.Add(start);

    /// <summary>Takes an alarm raised or cleared.</summary>
    public void Add(in AlarmTransition transition) => transitions.Add(transition);

    /// <summary>Sums up.</summary>
    /// <param name="sensitivity">Relative standard uncertainty (k = 1) that does not shrink with averaging.</param>
    public AssessmentReport Build(double sensitivity) =>
        Build(new StrokeContributions([new(StrokeContributions.Sensitivity, sensitivity, double.PositiveInfinity, "given")], sensitivityAssumed: false));

    /// <summary>Sums up.</summary>
    /// <param name="contributions">What does not shrink with averaging, by name.</param>
    /// <param name="stations">The sensors, where there are several.</param>
    /// <param name="orientation">Where gravity and motion stand in the one sensor's axes; null where it was not tallied.</param>
    /// <param name="axes">Number of the one sensor's axes.</param>
    /// <param name="jitter">What unsteady sampling did; null where the contributions state it.</param>
    /// <param name="orientations">Where gravity and motion stand in the axes of each of several sensors; null where it was not tallied.</param>
    public AssessmentReport Build(
        StrokeContributions contributions, IReadOnlyList<StationSettings>? stations = null, OrientationReading? orientation = null, int axes = 0,
        JitterReading? jitter = null, IReadOnlyList<OrientationReading>? orientations = null)
    {
        var steady = new SteadyWindows(windows);
        contributions = jitter is null ? contributions : contributions.With(JitterWords.Contribution(jitter));
        var (clockError, clockSteps) = ClockReader.Read(steady);
        var (stroke, strike) = (steady.Count > 0 && !MostAreCut(steady.Count) ? Measured(steady, contributions) : NotMeasured(), Strike());
        return new()
        {
            Feeder = feeder,
            Windows = windows,
            Decays = decays,
            Starts = starts,
            Transitions = transitions,
            Stroke = stroke with { AtLeast = Median([.. windows.Values((in KeptWindow window) => window.AtLeastMetres)]) },
            Mounting = stations is { Count: > 0 } ? MountingReader.Several : orientation is null ? null : MountingReader.Of(orientation, feeder, contributions, axes),
            Sensors = stations is { Count: > 0 } ? several.Build(stations, MountingReader.Of(orientations ?? [], feeder, stations)) : null,
            Strike = strike,
            Supply = supply.Build(feeder) is { } known ? FullVoltage.Complete(known, feeder, stroke, strike.Found, steady, supply, contributions) : null,
            Levels = LevelSummaryBuilder.Of(levels.Kept),
            FrequencyHz = Median(steady.Values((in KeptWindow window) => window.FrequencyHz)),
            Jitter = jitter,
            ClockError = clockError,
            ClockSteps = clockSteps,
            ClippedSamples = (long)windows.Values((in KeptWindow window) => window.ClippedSamples).Sum(),
        };
    }

    internal static double? Median<T>(IEnumerable<T> readings, Func<T, double?> value) => Median(readings.Select(value).OfType<double>().ToArray());

    /// <summary>Gives the median, null of none; the values change places.</summary>
    private static double? Median(double[] values) => values.Length == 0 ? null : ArrayStatistics.MedianInplace(values);

    private StrokeSummary Measured(SteadyWindows steady, StrokeContributions contributions)
    {
        var strokes = steady.Values((in KeptWindow window) => window.StrokeMetres);
        var mean = strokes.Average();
        var scatter = steady.Count < 2 ? 0 : Math.Sqrt(strokes.Sum(value => Math.Pow(value - mean, 2)) / (steady.Count - 1));
        var (least, most) = (strokes.Min(), strokes.Max());
        var stroke = Median(strokes)!.Value;
        var noise = Median(steady.Values((in KeptWindow window) => window.NoiseMetres)) ?? 0;
        var budget = StrokeBudget.Of(stroke, contributions, noise, scatter, steady.Count);
        var peak = Median(steady.Values((in KeptWindow window) => window.PeakMetres))!.Value;
        var over = peak > feeder.Band.Limit.Metres;
        var judge = new BandJudge(feeder.Band);
        return new(
            stroke,
            Median(steady.Values((in KeptWindow window) => window.FundamentalMetres)),
            least,
            most,
            StrokeBudget.CoverageFactor * budget.Combined,
            Median(steady.Values((in KeptWindow window) => window.LineAngleDegrees)),
            Median(steady.Values((in KeptWindow window) => window.EllipseRatio)),
            over ? Verdict.OverStroke : judge.Place(stroke),
            over && stroke <= feeder.Band.Limit.Metres ? $"the tray moves {BandJudge.Words(peak)} at one of its sensors, above the limit; the stroke given is the mean of them" : null)
        {
            Budget = budget,
            Peak = steady.Values((in KeptWindow window) => window.LargestMetres).Length > 0 ? peak : null,
        };
    }

    /// <summary>Says whether more windows are cut, or may be, than count: those few are then the ones that slipped through, and their median would read too low.</summary>
    private bool MostAreCut(int counting) =>
        windows.Count(window => window.Reading is { Motion: MotionState.Running, StrokeMetres: null, Quality: WindowQuality.Clipped } || window.Reading.MayBeClipped) > counting;

    private StrokeSummary NotMeasured()
    {
        var bounds = windows.Where(window => window.Verdict == Verdict.OverStroke).Select(window => window.Reading.AtLeastMetres).OfType<double>().Order().ToArray();
        if (bounds.Length > 0)
        {
            var bound = BandJudge.Words(bounds[bounds.Length / 2]);
            return new(null, null, null, null, null, null, null, Verdict.OverStroke, $"{(windows.Any(window => window.Reading.ClippedSamples > 0) ? "the sensor clips" : "the sensor may clip, its range is not stated")}; the stroke is at least {bound}, above the limit");
        }

        var still = windows.Count(window => window.Verdict == Verdict.Stopped);
        var common = windows.Where(window => window.Verdict != Verdict.Stopped)
            .GroupBy(window => window.Reading.Reason).OrderByDescending(group => group.Count()).FirstOrDefault()?.Key;
        var (verdict, reason) = windows.Count == 0 ? (Verdict.Unmeasurable, "the capture is shorter than ten cycles of the drive")
            : still > windows.Count / 2 ? (Verdict.Stopped, "the tray stands still: no stroke at the drive frequency")
            : (Verdict.Unmeasurable, common ?? "the feeder never ran steadily");
        var least = Median([.. windows.Values((in KeptWindow window) => window.AtLeastMetres)]);
        reason = verdict == Verdict.Unmeasurable && least is not null ? $"{reason}; the tray moves at least {BandJudge.Words(least)}" : reason;
        return new(null, null, null, null, null, null, null, verdict, reason);
    }

    private StrikeSummary Strike()
    {
        var judged = 0;
        var struck = 0;
        var alone = 0;
        var possible = 0;
        var running = false;
        double? first = null, most = null;
        var before = false;
        Span<int> rhythms = [0, 0, 0, 0];
        foreach (var (window, _) in windows)
        {
            if (window.StrikeScore is { } score)
            {
                judged++;
                most = Math.Max(most ?? 0, score);
            }

            possible += window.StrikePossible ? 1 : 0;
            if (window.Strike)
            {
                struck++;
                alone += window.StrikeCarried ? 0 : 1;
                rhythms[window.StrikeEvery ?? 0]++;
                first ??= window.StartSeconds;
                running |= before;
            }

            before = window.Strike;
        }

        var found = running || (judged < 3 && struck > 0) || StrikeCount.BeyondChance(alone, judged);
        var every = rhythms[1] >= Math.Max(rhythms[2], rhythms[3]) ? 1 : rhythms[2] >= rhythms[3] ? 2 : 3;
        return new(found, found ? first : null, struck, most, found && rhythms[0] < struck ? every : null, judged, possible);
    }
}
