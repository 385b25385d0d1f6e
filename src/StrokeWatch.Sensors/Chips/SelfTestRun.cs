namespace StrokeWatch.Sensors.Chips;

/// <summary>The self-test at the start: the mean of a tenth of a second without and with the test's force.</summary>
/// <remarks>A tenth of a second is whole cycles of 50, 60, 100 and 120 Hz, so that a running feeder hardly moves the mean.</remarks>
internal sealed class SelfTestRun(IChipDriver driver, ChipSettings settings, Action<TimeSpan> pause)
{
    private const double MeanSeconds = 0.1;
    private const double SettleSeconds = 0.05;
    private readonly ChipDrain drain = new(settings.Model.FifoSamples + 8);

    /// <summary>Runs it; null where the chip takes no samples or what it says of itself cannot be.</summary>
    public SelfTestResult? Run()
    {
        if (Mean() is not { } off)
        {
            return null;
        }

        driver.SelfTest(true);
        var on = Mean();
        driver.SelfTest(false);
        if (on is not { } moved || !Skip(SettleSeconds))
        {
            return null;
        }

        List<double> delta = [.. moved.Mean.Select((value, axis) => value - off.Mean[axis])];
        var gravity = Math.Sqrt(off.Mean.Sum(value => value * value));
        return new(Judge(delta, off.Peak), delta, gravity, off.Spread);
    }

    private SelfTestVerdict Judge(List<double> delta, double[] peak)
    {
        var verdict = SelfTestVerdict.Passed;
        var samples = Math.Max(1, MeanSeconds * settings.Rate.Hz);
        for (var axis = 0; axis < 3; axis++)
        {
            // A cycle that is cut off by one sample shifts a mean by that sample's share, twice.
            var (low, high) = driver.SelfTestLimits[axis];
            var least = Math.Min(Math.Abs(low), Math.Abs(high));
            if (2 * peak[axis] / samples > least / 2)
            {
                return SelfTestVerdict.NotJudged;
            }

            verdict = Math.Abs(delta[axis]) < least / 4 ? SelfTestVerdict.Dead
                : (delta[axis] < low || delta[axis] > high) && verdict == SelfTestVerdict.Passed ? SelfTestVerdict.OutOfLimits
                : verdict;
        }

        return verdict;
    }

    private (double[] Mean, double[] Spread, double[] Peak)? Mean()
    {
        if (!Skip(SettleSeconds))
        {
            return null;
        }

        double[] sum = new double[3], squares = new double[3], least = [1e9, 1e9, 1e9], most = [-1e9, -1e9, -1e9];
        var wanted = Math.Max(1, (int)Math.Round(MeanSeconds * settings.Rate.Hz));
        var taken = 0;
        var fine = Collect(() => taken < wanted, sample =>
        {
            for (var axis = 0; axis < 3 && taken < wanted; axis++)
            {
                var value = sample[axis] / settings.Range.CountsPerG;
                sum[axis] += value;
                squares[axis] += value * value;
                (least[axis], most[axis]) = (Math.Min(least[axis], value), Math.Max(most[axis], value));
            }

            taken = Math.Min(wanted, taken + 1);
        });
        double[] mean = [.. sum.Select(value => value / wanted)];
        return fine
            ? (mean, [.. squares.Select((square, axis) => Math.Sqrt(Math.Max(0, (square / wanted) - (mean[axis] * mean[axis]))))], [.. most.Select((value, axis) => (value - least[axis]) / 2)])
            : null;
    }

    private bool Skip(double seconds)
    {
        var left = Math.Max(1, (int)Math.Round(seconds * settings.Rate.Hz));
        return Collect(() => left > 0, _ => left--);
    }

    /// <summary>Drains while asked for more; false where nothing comes for as long as eight stores would take.</summary>
    private bool Collect(Func<bool> more, Action<int[]> take)
    {
        var sample = new int[3];
        var period = TimeSpan.FromSeconds(settings.Model.FifoSamples / settings.Rate.Hz / BusBudget.DrainsAFifo);
        for (var silent = 0; more();)
        {
            pause(period);
            drain.Clear();
            if (!driver.Drain(drain) || (drain.Count == 0 && ++silent > 8 * BusBudget.DrainsAFifo))
            {
                return false;
            }

            silent = drain.Count > 0 ? 0 : silent;
            for (var i = 0; i < drain.Count; i++)
            {
                drain[i].CopyTo(sample);
                take(sample);
            }
        }

        return true;
    }
}
