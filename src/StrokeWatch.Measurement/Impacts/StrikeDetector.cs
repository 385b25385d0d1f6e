using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// Hears the armature strike the core by what a strike is: a short contact at the closest approach, in every cycle, in every second or third or irregularly,
/// rich in orders far above those the magnet's own force has.
/// </summary>
/// <remarks>
/// The acceleration along the line of action passes a second difference, which weighs high orders up; the low orders are taken off; what is left is cut into
/// cycles (<see cref="HighCycles"/>). Where something repeats (<see cref="RhythmTest"/>), or varies more at one moment of the cycle than at others, <see cref="BlowFeatures"/> are
/// weighed by <see cref="TailedForest.Blows"/> for both ends of the path. The score is the logarithm of the false-alarm probability over that of the threshold.
/// </remarks>
internal sealed class StrikeDetector(IBlowListener? listener = null)
{
    /// <summary>The false-alarm probability of one window at which a strike is called; what was measured is in DEVELOPERS.md.</summary>
    internal const double FalseAlarm = 5e-5;

    /// <summary>The share of strikes of 30 % and more of the magnet's peak pull that each of the two may rule out.</summary>
    internal const double MissedEach = 5e-4;

    /// <summary>
    /// What of it there is to call by: by the window alone as long as nothing is remembered, and later by that and by what has changed together. One half is left for what the tails are themselves uncertain by: they are drawn
    /// from 160 windows and more, but windows of one machine come together. Where the law is known, eighty let through 1.75 times what they say, on the average; with a third left ten of 180,000 windows were called, nine are wanted.
    /// </summary>
    internal const double FalseAlarmOfAll = FalseAlarm / 2;

    /// <summary>
    /// What is left of that for the window alone once there is something to compare with: a tenth. What a window shows by itself the trees of changes weigh as well, and a sound that has not changed
    /// has been judged before.
    /// </summary>
    internal const double FalseAlarmAlone = FalseAlarmOfAll / 10;

    /// <summary>
    /// Gives the rest, for what has changed. Where rates are not the lowest half of it is left: what is wanted is called there without it. At the lowest half as much again is taken of what was left for the tails: on thirteen seeds 25 of
    /// 260,000 windows of trays that rub, late firing angles, loose guards and falling pieces were called with it and 19 without, and 35 of 60,000 strikes of 30 % and more missed in place of 53.
    /// </summary>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    internal static double FalseAlarmChanged(double rateHz) => (FalseAlarmOfAll - FalseAlarmAlone) * (TailedForest.IsLowest(rateHz) ? 1.5 : 0.5);

    private const int LongestPeriod = 3;
    private const int FewestCycles = 9;
    private const int FewestOrders = 2;

    /// <summary>The lowest rate on which the trees were grown, 1 kHz, less what sensor clocks are off.</summary>
    internal const double LeastRateHz = 950;

    /// <summary>Chance alone must be less likely than this, as a common logarithm, before anything is looked into.</summary>
    private const double FirstLook = -2;

    /// <summary>The same for how much louder cycles vary at one moment than at others: noise alone gives some 2.</summary>
    private const double LeastUnevenness = 2.5;

    /// <summary>Few cycles of noise seem to vary more: their unevenness as a natural logarithm, times the root of their number, seldom reaches this (measured: about one window in fifty).</summary>
    private const double NoiseUnevenness = 5.5;

    /// <summary>Below this rate in Hz every window is cut exactly: there a reading between samples leaves much of the high orders out, and windows are short. Above it only what is looked into is.</summary>
    private const double ExactBelowHz = 2200;

    private readonly SlowerLine slower = new();
    private readonly SlowerHarmonics slowed = new();
    private readonly HighCycles cycles = new();
    private readonly RhythmTest rhythm = new();
    private readonly BlowFeatures blows = new();

    /// <summary>Gets what the last window judged showed.</summary>
    public HeardBlows Heard { get; } = new();

    /// <summary>Judges a window; null where the rate is too low or the window too short to tell.</summary>
    /// <param name="line">Acceleration along the line of action, in m/s².</param>
    /// <param name="fit">The fit of the window.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    /// <returns>The score: 1 is the threshold.</returns>
    public double? Judge(ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics path, double rateHz)
    {
        (Heard.Period, Heard.Possible) = (0, false);
        if (FirstOrder(fit.Frequency, rateHz) is null)
        {
            return null;
        }

        var heard = SlowerLine.Every(rateHz) is var every and > 1 ? slower.Take(line, every) : line;
        fit = slowed.Of(fit, ref path, ref rateHz);
        cycles.Take(heard, fit, path, rateHz);
        if (cycles.Count < FewestCycles)
        {
            return null;
        }

        var exact = rateHz < ExactBelowHz;
        if (exact)
        {
            cycles.Refine(heard, fit, path);
        }

        blows.Take(cycles, path, Heard.Varied);
        var least = Math.Max(LeastUnevenness, Math.Exp(NoiseUnevenness / Math.Sqrt(cycles.Count)));
        if (Weigh(path) > FirstLook && blows.Unevenness < least)
        {
            Array.Clear(Heard.End);
            Array.Clear(Heard.OtherEnd);
            return 0;
        }

        if (!exact)
        {
            cycles.Refine(heard, fit, path);
            blows.Take(cycles, path, stackalloc double[BlowFeatures.Sectors]);
            Weigh(path);
        }

        blows.Work(cycles, fit, path, rateHz, Heard.Evidence);
        blows.Side(1, Heard.End);
        blows.Side(-1, Heard.OtherEnd);
        listener?.Take(Heard.End, Heard.OtherEnd);
        var forest = TailedForest.Blows(rateHz);
        var sum = Math.Max(forest.Sum(Heard.End), forest.Sum(Heard.OtherEnd));
        Heard.Possible = !forest.RulesOut(sum, rateHz, fit.Frequency * rateHz);
        return forest.LogFalseAlarm(sum, rateHz, fit.Frequency * rateHz) / Math.Log10(FalseAlarmOfAll);
    }

    /// <summary>Gives the lowest order in which blows are listened for; null where the rate is too low to tell.</summary>
    /// <param name="frequency">Drive frequency in cycles a sample.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    internal static int? FirstOrder(double frequency, double rateHz)
    {
        var (low, left) = HighCycles.Band(frequency, rateHz);
        return rateHz < LeastRateHz || left < FewestOrders ? null : low + 1;
    }

    /// <summary>Tells how likely chance alone makes the cycles repeat as they do; gives the least of the common logarithms.</summary>
    private double Weigh(LineHarmonics path)
    {
        var fundamental = Math.Sqrt((path.LineCosine[1] * path.LineCosine[1]) + (path.LineSine[1] * path.LineSine[1]));
        var dimensions = 2 * cycles.OrdersLeft;
        rhythm.Take(cycles);
        var locked = rhythm.Locked(dimensions, fundamental);
        var second = rhythm.Rhythm(2, dimensions, fundamental);
        var third = rhythm.Rhythm(LongestPeriod, dimensions, fundamental);
        Heard.Evidence = (-locked, -second, -third);
        Heard.Period = Math.Min(second, third) <= Math.Log10(FalseAlarm) ? second < third ? 2 : LongestPeriod : locked <= Math.Log10(FalseAlarm) ? 1 : 0;
        return Math.Min(locked, Math.Min(second, third));
    }
}
