using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Sensors.Lines;

/// <summary>The decoder of plain text lines, one a sample. A line that is turned down is a gap of one sample.</summary>
internal sealed class TextLineDecoder : ISampleDecoder
{
    private const int MaxLineOfOne = 255;

    /// <summary>Half the largest acceleration that a sensor without a stated full scale may give, in m/s².</summary>
    private const double PlausibleFullScale = 5e5;

    private readonly TextLineFormat format;
    private readonly SourceCounters counters;
    private readonly TimeProvider time;
    private readonly LineClock clock;
    private readonly SensorAnnouncement sensor;
    private readonly HeldBytes waiting;
    private readonly int maxLine;
    private readonly double[] numbers;
    private readonly long origin;
    private bool joined;
    private bool ended;
    private bool overlong;
    private bool any;
    private bool broken;
    private bool restarted;
    private long rejected;

    /// <summary>Makes a decoder that counts what it turns down, and measures the rate by the time provider's monotonic clock.</summary>
    public TextLineDecoder(TextLineFormat format, SourceCounters counters, TimeProvider time)
    {
        this.format = format;
        this.counters = counters;
        this.time = time;
        clock = new(format);
        numbers = new double[format.Columns];
        maxLine = format.Sensors * MaxLineOfOne;
        waiting = new(ISampleDecoder.FeedSize + (4 * maxLine));
        sensor = new(format.Axes, format.RateHz, format.FullScale, string.Empty) { Sensors = format.Sensors, SupplyFullScale = format.Supply ? double.PositiveInfinity : null };
        origin = time.GetTimestamp();
    }

    /// <inheritdoc/>
    public int Feed(ReadOnlySpan<byte> bytes)
    {
        if (ended)
        {
            waiting.Clear();
            ended = joined = overlong = false;
        }

        return waiting.Take(bytes);
    }

    /// <inheritdoc/>
    public void Break()
    {
        ended = true;
        broken = any;
    }

    /// <inheritdoc/>
    public DecodeState Next(SampleRun run)
    {
        run.Clear();
        while (run.Count < SampleRun.Capacity && TryLine(out var line, out var whole))
        {
            switch (LineParser.Parse(line, numbers))
            {
                case LineKind.Remark:
                    break;
                case LineKind.Header:
                    // A time column tells a new start better than names of columns, which may be printed again and again.
                    restarted |= any && format.Time == TimeColumn.None;
                    break;
                case LineKind.WrongColumns:
                    Reject(RejectReason.Columns, whole);
                    break;
                case LineKind.WrongNumber:
                    Reject(RejectReason.Number, whole);
                    break;
                default:
                    if (!TryPut(run, whole))
                    {
                        return Finish(run);
                    }

                    break;
            }

            waiting.Drop(whole);
        }

        if (run.Count < SampleRun.Capacity)
        {
            clock.NoteHost(time.GetElapsedTime(origin).TotalSeconds);
        }

        return Finish(run);
    }

    private DecodeState Finish(SampleRun run)
    {
        run.Sensor = sensor;
        run.MeasuredRateHz = clock.MeasuredRateHz;
        return run.Count > 0 ? DecodeState.Samples : DecodeState.None;
    }

    /// <summary>Puts a sample into the run; false where a gap lies before it and the run must end first.</summary>
    private bool TryPut(SampleRun run, int whole)
    {
        var values = numbers.AsSpan(format.FirstChannel, format.Channels);
        var limit = 2 * (format.FullScale ?? PlausibleFullScale);
        foreach (var value in numbers.AsSpan(0, format.FirstChannel + format.Channels))
        {
            if (!double.IsFinite(value))
            {
                Reject(RejectReason.Range, whole);
                return true;
            }
        }

        foreach (var value in values)
        {
            if (Math.Abs(value * format.Scale) > limit)
            {
                Reject(RejectReason.Range, whole);
                return true;
            }
        }

        // Where lines carry no time, nobody knows how many were missed while the port was gone.
        var timed = restarted || (broken && format.Time == TimeColumn.None) ? null : clock.Missing(numbers[0]);
        var missing = timed is { } n ? Math.Max(n, any ? rejected : 0) : (long?)null;
        if (missing != 0 && run.Count > 0)
        {
            return false;
        }

        if (missing != 0)
        {
            run.GapBefore = true;
            run.MissingBefore = missing;
            run.Restarted = restarted || (missing is null && format.Time != TimeColumn.None);
        }

        Store(run, values);
        clock.Accept(numbers[0], missing);
        (any, broken, restarted, rejected) = (true, false, false, 0);
        return true;
    }

    private void Store(SampleRun run, ReadOnlySpan<double> values)
    {
        var at = run.Count++;
        var mark = SampleMarks.None;
        for (var channel = 0; channel < values.Length; channel++)
        {
            var value = values[channel] * format.Scale;
            run[channel][at] = value;
            if (Math.Abs(value) >= SampleRun.ClippedFrom * format.FullScale)
            {
                mark |= SampleRun.ClippedMark(channel / format.Axes.Count, format.Sensors);
            }
        }

        run.Marks[at] = mark;
        run.HasSupply = format.Supply;
        run.Supply[at] = format.Supply && double.IsFinite(numbers[^1]) ? numbers[^1] : double.NaN;
    }

    /// <summary>Finds the next whole line; what cannot be one is turned down here.</summary>
    private bool TryLine(out ReadOnlySpan<byte> line, out int whole)
    {
        while (true)
        {
            var held = waiting.All;
            var at = held.IndexOf((byte)'\n');
            whole = at + 1;
            if (at < 0)
            {
                KeepOnlyALine(held.Length);
                line = default;
                return false;
            }

            line = held[..at];
            if (joined && !overlong && at <= maxLine)
            {
                return true;
            }

            Reject(joined ? RejectReason.Length : RejectReason.Joining, whole);
            overlong = false;
            joined = true;
            waiting.Drop(whole);
        }
    }

    private void KeepOnlyALine(int held)
    {
        if (ended || held > maxLine)
        {
            // The rest of an overlong line is still to come: it is counted once, at its end.
            overlong = !ended;
            counters.SkippedBytes += held;
            waiting.Drop(held);
        }
    }

    private void Reject(RejectReason reason, int bytes)
    {
        counters.Reject(RejectReasons.Name(reason));
        counters.SkippedBytes += bytes;
        if (reason != RejectReason.Joining)
        {
            rejected++;
        }
    }
}
