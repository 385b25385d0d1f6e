namespace StrokeWatch.Assessment.Trends;

/// <summary>Watches one feature of a machine for drift from its baseline; memory does not grow, and nothing is allocated a reading.</summary>
/// <remarks>
/// A CUSUM of readings in standard deviations signals, each held in by a soft limit, so that one wild reading alone signals nothing. Time enters only into dates and rates:
/// gaps do no harm. After a signal the state lasts until the sum is back at zero.
/// </remarks>
public sealed class TrendWatch
{
    private const int Kept = 512;

    private readonly TrendDesign design;
    private readonly TrendBaseline baseline;
    private readonly Cusum sums;
    private readonly Ewma level;
    private readonly DatedReading[] ring = new DatedReading[Kept];
    private int first;
    private int count;
    private long readings;
    private DateTimeOffset latest = DateTimeOffset.MinValue;
    private DateTimeOffset riseBegan;
    private DateTimeOffset fallBegan;
    private DateTimeOffset signalled;
    private ChangePoint? atSignal;

    /// <summary>Begins a watch.</summary>
    /// <param name="design">The charts; of the baseline's number of readings.</param>
    /// <param name="baseline">What is healthy.</param>
    public TrendWatch(TrendDesign design, TrendBaseline baseline)
    {
        if (design.Readings != baseline.Readings)
        {
            throw new ArgumentException("The charts were designed for a baseline of another number of readings.", nameof(design));
        }

        this.design = design;
        this.baseline = baseline;

        // One more standard deviation than signals, so that a single reading does not make the state flicker, and no more, so that a mended machine is steady again soon.
        sums = new(design.Allowance, design.Decision, 0, design.Decision + 1);
        level = new(design.Level.Weight, design.Level.Width);
    }

    /// <summary>Gets what the feature does.</summary>
    public TrendState State { get; private set; }

    /// <summary>Takes a reading.</summary>
    /// <param name="at">When it was taken.</param>
    /// <param name="value">Its value.</param>
    /// <param name="ownUncertainty">Its standard uncertainty (k = 1) by what differs from reading to reading; what shifts all readings alike is not in it.</param>
    /// <returns>False where it cannot be used: not later than the one before, not a number, or without any scatter to judge it by.</returns>
    public bool TryAdd(DateTimeOffset at, double value, double ownUncertainty)
    {
        var deviation = baseline.Deviation(ownUncertainty);
        if (at <= latest || !double.IsFinite(value) || !(deviation > 0 && double.IsFinite(deviation)))
        {
            return false;
        }

        latest = at;
        readings++;
        Keep(new(at, value, deviation * baseline.SpreadDoubt));
        var limited = SoftLimit.Of((value - baseline.Mean) / deviation, design.Limit);
        sums.Add(limited);
        level.Add(limited);
        riseBegan = sums.RiseReadings == 1 ? at : riseBegan;
        fallBegan = sums.FallReadings == 1 ? at : fallBegan;
        Judge(at);
        return true;
    }

    /// <summary>Tells all that is known by now.</summary>
    public TrendReport Report()
    {
        var drifting = State != TrendState.Steady;
        var unit = baseline.Spread > 0 ? baseline.Deviation(baseline.OwnUncertainty) : count > 0 ? Newest.Deviation : 0;
        var half = design.Level.Width * Math.Sqrt(level.Deviation * level.Deviation * unit * unit + baseline.MeanUncertainty * baseline.MeanUncertainty);
        return new()
        {
            State = State,
            Signalled = drifting ? signalled : null,
            AboveZeroSince = drifting ? State == TrendState.DriftingUp ? riseBegan : fallBegan : null,
            Change = drifting ? Change() : null,
            Level = readings > 0 ? baseline.Mean + level.Value * unit : null,
            LevelLower = readings > 0 ? baseline.Mean - half : null,
            LevelUpper = readings > 0 ? baseline.Mean + half : null,
            Readings = readings,
            RunLength = design.RunLength,
        };
    }

    private DatedReading Newest => ring[(first + count - 1) % Kept];

    private void Judge(DateTimeOffset at)
    {
        var state = sums.Signal switch
        {
            > 0 => TrendState.DriftingUp,
            < 0 => TrendState.DriftingDown,
            _ => State switch
            {
                TrendState.DriftingUp when sums.Rise > 0 => State,
                TrendState.DriftingDown when sums.Fall > 0 => State,
                _ => TrendState.Steady,
            },
        };
        if (state == State)
        {
            return;
        }

        if (state == TrendState.Steady)
        {
            // What was before the machine came back is another story: the next change is looked for after it.
            first = count = 0;
            atSignal = null;
        }
        else
        {
            signalled = at;
            atSignal = Found();
        }

        State = state;
    }

    private ChangePoint? Change() => count == Kept && atSignal is { } told && ring[first].At > told.Earliest
        ? ChangeFinder.Later(told, Held(), baseline.Mean, baseline.MeanUncertainty * baseline.SpreadDoubt)
        : Found();

    private ChangePoint? Found() => ChangeFinder.Find(Held(), baseline.Mean, baseline.MeanUncertainty * baseline.SpreadDoubt);

    private DatedReading[] Held()
    {
        var kept = new DatedReading[count];
        for (var i = 0; i < count; i++)
        {
            kept[i] = ring[(first + i) % Kept];
        }

        return kept;
    }

    private void Keep(DatedReading reading)
    {
        ring[(first + count) % Kept] = reading;
        if (count < Kept)
        {
            count++;
        }
        else
        {
            first = (first + 1) % Kept;
        }
    }
}
