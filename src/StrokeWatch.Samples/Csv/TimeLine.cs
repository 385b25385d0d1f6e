namespace StrokeWatch.Samples.Csv;

/// <summary>
/// Judges each row by its time: follows an even spacing along the rows, and calls it a gap only where the rows after stay late as well,
/// so that neither rounding nor a late stamp is taken for lost samples.
/// </summary>
internal sealed class TimeLine
{
    private readonly TimeGrid grid;
    private readonly double longestStep;
    private readonly double memory;
    private double last = double.NaN;
    private double expected;
    private long sinceTick;
    private long inStretch;
    private bool started;

    /// <summary>Makes a line for a spacing.</summary>
    public TimeLine(TimeGrid grid)
    {
        this.grid = grid;
        (longestStep, memory) = (grid.LongestStep, grid.Memory);
    }

    /// <summary>Gets the rows whose time is that of the row before.</summary>
    public long Repeats { get; private set; }

    /// <summary>Gets the rows whose time is before that of the row before.</summary>
    public long BackwardSteps { get; private set; }

    /// <summary>Gets the gaps.</summary>
    public long Gaps { get; private set; }

    /// <summary>Gets the samples missing in them.</summary>
    public long Missing { get; private set; }

    /// <summary>Gets the longest gap in seconds.</summary>
    public double LargestGap { get; private set; }

    /// <summary>Judges the rows of a stage for which enough rows follow, or all of them at the end.</summary>
    public void Judge(RowStage stage, bool ended)
    {
        var until = ended ? stage.Count : stage.Count - grid.Ahead;
        if (until <= stage.Judged)
        {
            return;
        }

        stage.Missing.AsSpan(stage.Judged, until - stage.Judged).Clear();
        for (var i = FollowUsual(stage, stage.Judged, until); i < until; i = FollowUsual(stage, i + 1, until))
        {
            stage.Verdict[i] = JudgeRow(stage, i);
            if (stage.Verdict[i] is RowVerdict.AfterGap or RowVerdict.AfterSetBack)
            {
                Gaps++;
                Missing += stage.Missing[i];
            }
        }

        stage.Judged = until;
    }

    /// <summary>Follows the rows that come a usual step after the one before, with nothing rejected between; gives the first that does not.</summary>
    private int FollowUsual(RowStage stage, int from, int until)
    {
        var times = stage.Time.AsSpan(0, until);
        var rejected = stage.RejectedBefore.AsSpan(0, until);
        var (before, due, rows, step, slowest) = (last, expected, inStretch, grid.Step, 1 / memory);
        var i = from;
        for (; i < times.Length; i++)
        {
            var time = times[i];
            if (!(time > before && time - before <= longestStep) || rejected[i] != 0)
            {
                break;
            }

            rows++;
            due += ((rows < memory ? 1.0 / rows : slowest) * (time - due)) + step;
            before = time;
        }

        if (i > from)
        {
            stage.Verdict.AsSpan(from, i - from).Fill(RowVerdict.Follows);
            (last, expected, inStretch, sinceTick) = (before, due, rows, 1);
        }

        return i;
    }

    private RowVerdict JudgeRow(RowStage stage, int i)
    {
        var time = stage.Time[i];
        var rejected = stage.RejectedBefore[i];
        if (double.IsNaN(last) || double.IsNaN(time))
        {
            return JudgeUntimed(stage, i, time, rejected);
        }

        var step = time - last;
        Repeats += step == 0 ? 1 : 0;
        BackwardSteps += step < 0 ? 1 : 0;
        var times = stage.Time.AsSpan(0, stage.Count);
        if (step < -0.5 * grid.Step && time - expected < -Math.Max(0.8 * grid.Step, 4 * grid.Jitter))
        {
            var next = Next(times, i + 1);
            if (double.IsNaN(next) || next > last - (0.5 * grid.Step))
            {
                return RowVerdict.OutOfOrder;
            }

            return Begin(time, RowVerdict.AfterSetBack);
        }

        if (step > longestStep)
        {
            if (IsSpike(times, i))
            {
                return RowVerdict.OutOfOrder;
            }

            if (StayLate(times, i, out var lateness))
            {
                var missing = grid.IsCoarse
                    ? Math.Round(step / grid.Step) - sinceTick - rejected
                    : Math.Round(lateness / grid.Step);
                stage.Missing[i] = (long)Math.Clamp(missing + (grid.IsCoarse ? rejected : 0), Math.Max(1, grid.IsCoarse ? rejected : 1), 1e15);
                LargestGap = Math.Max(LargestGap, step);
                return Begin(time, RowVerdict.AfterGap);
            }
        }

        if (step == 0 && !grid.IsCoarse && !grid.IsUneven && IsOneTooMany(times, i))
        {
            return RowVerdict.Repeated;
        }

        var verdict = RowVerdict.Follows;
        if (grid.IsCoarse && rejected > 0)
        {
            // Rounded times cannot show that a row is missing, but the rejected row itself does.
            (stage.Missing[i], verdict) = (rejected, RowVerdict.AfterGap);
            expected += rejected * grid.Step;
            sinceTick += rejected;
            LargestGap = Math.Max(LargestGap, (rejected + 1) * grid.Step);
        }

        Follow(time, step);
        return verdict;
    }

    /// <summary>Judges a row without a time of its own, or the first row that has one: only a rejected row shows a gap there.</summary>
    private RowVerdict JudgeUntimed(RowStage stage, int i, double time, int rejected)
    {
        var first = !started;
        started = true;
        if (double.IsNaN(last) && !double.IsNaN(time))
        {
            Begin(time, RowVerdict.Follows);
        }
        else
        {
            expected += (1 + rejected) * grid.Step;
            sinceTick += 1 + rejected;
        }

        if (rejected == 0 || first)
        {
            return RowVerdict.Follows;
        }

        stage.Missing[i] = rejected;
        LargestGap = Math.Max(LargestGap, (rejected + 1) * grid.Step);
        return RowVerdict.AfterGap;
    }

    private RowVerdict Begin(double time, RowVerdict verdict)
    {
        (last, expected, sinceTick, inStretch) = (time, time + grid.Step, 1, 1);
        return verdict;
    }

    private void Follow(double time, double step)
    {
        inStretch++;
        var weight = Math.Max(1.0 / inStretch, 1 / memory);
        expected += (weight * (time - expected)) + grid.Step;
        sinceTick = step > 0 ? 1 : sinceTick + 1;
        last = time;
    }

    /// <summary>
    /// Says whether a row and those after it are late against the even spacing: three of the first four, and three quarters of all that are
    /// looked at. Rounding keeps fewer late, and a stamp that is late alone, or a clock that stalls and catches up, fewer still.
    /// </summary>
    private bool StayLate(ReadOnlySpan<double> times, int i, out double lateness)
    {
        var (due, highest) = (expected, times[i]);
        var (seen, late, sum) = (0, 0, 0.0);
        var averaged = grid.Jitter > 0.05 * grid.Step ? 8 : 1;
        lateness = times[i] - expected;
        for (var k = i; k < Math.Min(times.Length, i + grid.Ahead); k++, due += grid.Step)
        {
            if (double.IsNaN(times[k]))
            {
                continue;
            }

            if (times[k] < highest - Math.Max(0.8 * grid.Step, 4 * grid.Jitter))
            {
                if (times[k] < expected - grid.Step || !(Next(times, k + 1) > highest - grid.Step))
                {
                    break;
                }

                due -= grid.Step;
                continue;
            }

            highest = Math.Max(highest, times[k]);
            seen++;
            late += times[k] - due > 0.5 * grid.Step ? 1 : 0;
            sum += seen <= averaged ? times[k] - due : 0;
            lateness = seen <= averaged ? sum / seen : lateness;
            if ((seen == 4 && late < 3) || (seen - late) * 4 > grid.Ahead)
            {
                return false;
            }
        }

        return late * 4 >= seen * 3;
    }

    /// <summary>Says whether a row stands alone in the future: the next two are back on the line.</summary>
    private bool IsSpike(ReadOnlySpan<double> times, int i)
    {
        var (next, after) = (Next(times, i + 1), Next(times, i + 2));
        var back = times[i] - (0.5 * grid.Step);
        return next < back && next > last - (0.5 * grid.Step) && !(after > back);
    }

    /// <summary>Says whether the rows after a repeated time come a whole step early: the repeated row does not belong.</summary>
    private bool IsOneTooMany(ReadOnlySpan<double> times, int i)
    {
        var (sum, count) = (0.0, 0);
        for (var k = i + 1; k < Math.Min(times.Length, i + 9); k++)
        {
            if (times[k] >= last)
            {
                sum += times[k] - (expected + ((k - i) * grid.Step));
                count++;
            }
        }

        return count == 0 ? times[i] - expected < -0.5 * grid.Step : sum / count < -0.5 * grid.Step;
    }

    private static double Next(ReadOnlySpan<double> times, int from)
    {
        while (from < times.Length && double.IsNaN(times[from]))
        {
            from++;
        }

        return from < times.Length ? times[from] : double.NaN;
    }
}
