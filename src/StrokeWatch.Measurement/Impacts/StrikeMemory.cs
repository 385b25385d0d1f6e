using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// Remembers how a machine sounded and hears by the difference that a strike has begun: the baseline that a detector learns of the machine by itself while it runs.
/// None is required: until there is one, and where nothing has changed, <see cref="StrikeDetector"/> alone judges. What was called stays so while windows nearly call it.
/// </summary>
/// <remarks>
/// The memory is the mean over the last windows that were not suspected, the less noisy ones weighing more, over stops and starts too. While a strike is suspected it stands still; what stays suspected
/// for ten minutes, and by the difference alone, is what the machine now is. A machine that is suspected from the first window on, but not called, is remembered as it is: what comes to it is heard.
/// A sensor turned or a drive changed begins it anew. Windows must come in their order. A sensor of one axis is compared with nothing: in what direction the tray moves it does not tell. Nothing is allocated a window.
/// </remarks>
internal sealed class StrikeMemory(IBlowListener? listener = null)
{
    private const int Longest = 20;

    /// <summary>A window whose score is at least this does not enter the memory, and is not ruled out.</summary>
    private const double Suspected = 0.5;

    /// <summary>What was called stays so while the score is at least this: below it a strike has ended.</summary>
    private const double StillCalled = 0.7;

    private const double LongestSeconds = 600;

    /// <summary>What is left of a score after half a second: what barely called is not carried on, what was beyond doubt for some ten seconds.</summary>
    private const double LeftAWindow = 0.97;

    private const double WindowSeconds = 0.5;

    /// <summary>A score of the window alone, once there is something to compare with, over what it was before.</summary>
    private static readonly double AloneOfAll = Math.Log10(StrikeDetector.FalseAlarmOfAll) / Math.Log10(StrikeDetector.FalseAlarmAlone);

    private readonly SlowerHarmonics slowed = new();
    private readonly OnsetPicture window = new();
    private readonly OnsetPicture before = new();
    private readonly OnsetFeatures features = new();
    private readonly double[] end = new double[OnsetFeatures.Count];
    private readonly double[] otherEnd = new double[OnsetFeatures.Count];
    private StrikeDetector? apart;
    private double suspectedSeconds;
    private bool doubtful;
    private double carried, carriedAt;

    /// <summary>Completes the reading of a window that was kept and listened to.</summary>
    public WindowReading Compare(in WindowReading reading, KeptLine kept) => Compare(reading, kept.Fit, kept.Line, kept.RateHz, kept.Heard, kept.Aside);

    /// <summary>Completes the reading of a window that was listened to.</summary>
    public WindowReading Compare(in WindowReading reading, IWindowHarmonics fit, LineHarmonics path, double rateHz, HeardBlows heard, LineAside? aside = null)
    {
        if (reading.StrikeScore is not { } alone)
        {
            return reading;
        }

        var (whole, wholeRate) = (fit, rateHz);
        fit = slowed.Of(fit, ref path, ref rateHz);
        window.Take(fit, path, rateHz, heard, reading.StartSeconds + (0.5 * reading.LengthSeconds));
        var (score, changed) = (alone, 0.0);
        var possible = reading.StrikePossible;
        if (!before.Fits(window))
        {
            // Another machine, sensor or drive; where there was no memory yet, what was called goes on.
            carried = before.Count > 0 ? 0 : carried;
            before.Clear();
        }
        else if (window.Axes > 1)
        {
            // Where nothing new stands out of the noise to be weighed, a window that by itself shows what those before did not has the whole of the false-alarm probability to be called by.
            var weighed = features.Work(window, before, heard, fit, path, rateHz);
            score *= weighed || doubtful || alone < 1 ? AloneOfAll : 1;
            if (weighed)
            {
                var forest = TailedForest.Onsets(rateHz);
                var sum = Sum(forest);
                changed = forest.LogFalseAlarm(sum, rateHz, window.DriveHz) / Math.Log10(StrikeDetector.FalseAlarmChanged(rateHz));
                score = Math.Max(score, changed);
                possible &= !forest.RulesOut(sum, rateHz, window.DriveHz);
            }
        }

        if (score >= StillCalled && aside is { There: true } && Apart(aside, whole, wholeRate) is { } without)
        {
            (score, possible) = (Math.Min(score, without), true);
        }

        var told = Carry(score, reading.StartSeconds);
        var suspicion = doubtful ? Math.Max(told, alone) : told;
        Learn(suspicion, alone, changed, reading.LengthSeconds);
        return reading with
        {
            StrikeScore = told,
            Strike = told >= 1,
            StrikeCarried = told >= 1 && score < 1,
            StrikePossible = told < 1 && (possible || suspicion >= Suspected),
            StrikeEvery = told >= 1 && heard.Period > 0 ? heard.Period : null,
        };
    }

    /// <summary>Carries what the windows before called on, fading, for as long as the window itself nearly calls: a strike begins but once, and then stands.</summary>
    private double Carry(double score, double at)
    {
        var left = carried < 1 || score < StillCalled ? 0 : carried * Math.Pow(LeftAWindow, Math.Max(0, at - carriedAt) / WindowSeconds);
        (carried, carriedAt) = (left >= 1 ? Math.Max(score, left) : score, at);
        return carried;
    }

    /// <summary>Gives the score of the other axes where they rule a strike out: then the axis that reaches farthest may have been cut by the end of its range.</summary>
    private double? Apart(LineAside aside, IWindowHarmonics fit, double rateHz)
    {
        apart ??= new();
        var score = apart.Judge(aside.Samples, fit, aside.Line, rateHz);
        return apart.Heard.Possible || score >= 1 ? null : score;
    }

    private double Sum(TailedForest forest)
    {
        features.Side(1, end);
        features.Side(-1, otherEnd);
        listener?.TakeOnset(end, otherEnd, features.Changed);
        return Math.Max(forest.Sum(end), forest.Sum(otherEnd));
    }

    private void Learn(double score, double alone, double changed, double seconds)
    {
        // What a machine sounds like by itself from the first window on does not keep it from being remembered; what has come to it does.
        var only = score >= Suspected && score < 1 && changed < Suspected && (doubtful || before.Count == 0);
        if (score < Suspected || only)
        {
            (suspectedSeconds, doubtful) = (0, only);
            before.Blend(window, Longest);
            return;
        }

        suspectedSeconds += seconds;
        if (before.Count > 0 && suspectedSeconds > LongestSeconds && alone < (doubtful ? 1 : Suspected))
        {
            before.Clear();
            (suspectedSeconds, carried, doubtful) = (0, 0, false);
        }
    }
}
