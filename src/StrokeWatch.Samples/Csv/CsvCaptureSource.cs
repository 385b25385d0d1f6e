using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Samples.Csv;

/// <summary>A text table as a source of samples: read twice where it has a time column, never held in memory.</summary>
internal sealed class CsvCaptureSource : ICaptureSource
{
    private readonly CaptureBytes bytes;
    private readonly RowReader reader;
    private readonly RowStage stage;
    private readonly TimeLine? line;
    private readonly StretchClock clock;
    private readonly bool stamped;
    private bool delivered;

    private CsvCaptureSource(CaptureBytes bytes, SourceInfo info, CaptureSummary summary, RowReader reader, TimeGrid? grid)
    {
        this.bytes = bytes;
        this.reader = reader;
        Info = info;
        Summary = summary;
        line = grid is { } known ? new TimeLine(known) : null;
        stage = CsvSurvey.Stage(info.Axes.Count + (info.HasSupply ? 1 : 0), grid);
        stamped = info.TimeStamps is { Even: false, Shared: false };
        clock = new StretchClock(info.RateHz, info.RateFrom == RateOrigin.Timestamps);
    }

    /// <inheritdoc/>
    public SourceInfo Info { get; }

    /// <inheritdoc/>
    public SourceCounters Counters { get; } = new();

    /// <inheritdoc/>
    public CaptureSummary Summary { get; }

    /// <summary>Opens a text capture.</summary>
    public static CsvCaptureSource Open(CaptureBytes bytes, TextKind kind, CaptureOptions options)
    {
        var guesses = new List<string>();
        var table = CsvTableReader.Find(bytes, kind, options.SkipRows ?? 0);
        var plan = new ColumnPlanner(bytes, table, options, guesses).Plan();
        var trailer = new PreambleHints();
        var survey = plan.Time < 0 ? new CsvSurvey(null, null, 0) : CsvSurvey.Of(
            watchPlaces => new RowReader(bytes, kind, table, plan, valuesWanted: false, watchPlaces), TimeUnits.Seconds(plan.TimeUnit), plan.Values);
        if (plan.Time >= 0 && survey.Grid is null)
        {
            guesses.Add(FormattableString.Invariant($"the times in column {plan.Time + 1} do not advance; they were ignored"));
        }

        if (survey.Grid is null && table.Hints.RateHz is null && options.RateHz is null)
        {
            CsvRate.ReadTrailer(bytes, kind, trailer);
        }

        var rate = CsvRate.Choose(options, survey.Summary, table.Hints, trailer, guesses);
        var info = new SourceInfo
        {
            Format = "csv",
            Axes = plan.Axes,
            Places = plan.Places,
            RateHz = rate.Hz,
            RateFrom = rate.From,
            Unit = plan.Unit,
            FullScale = options.FullScaleG * Gravity.Standard,
            TimeStamps = survey.Summary,
            HeaderRateHz = table.Hints.RateHz ?? trailer.RateHz,
            Recorded = table.Hints.Recorded,
            HasSupply = plan.Supply >= 0,
            Guesses = guesses,
        };
        var summary = new CaptureSummary
        {
            Samples = survey.Summary is null ? null : survey.Samples,
            Timestamps = survey.Summary,
            Repeatable = bytes.Repeatable,
            HeaderRateHz = table.Hints.RateHz ?? trailer.RateHz,
        };
        return new(bytes, info, summary, new RowReader(bytes, kind, table, plan), survey.Grid);
    }

    /// <inheritdoc/>
    public SourceState Read(SampleBlock block)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(block.Channels, Info.Axes.Count, nameof(block));
        block.Clear();
        (block.RateHz, block.FullScale) = (Info.RateHz, Info.FullScale);
        try
        {
            var count = 0;
            while (count < block.Capacity && Advance() && (count == 0 || stage.Verdict[stage.Done] == RowVerdict.Follows))
            {
                count += Take(block, count);
            }

            block.SetCount(count);
            Counters.Samples += count;
            return count > 0 ? SourceState.Samples : SourceState.End;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw bytes.Error(fault);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        reader.Dispose();
        bytes.Dispose();
    }

    /// <summary>Goes to the next row to be delivered; false at the end.</summary>
    private bool Advance()
    {
        while (true)
        {
            while (stage.Done < stage.Judged)
            {
                if (stage.Verdict[stage.Done] is not (RowVerdict.OutOfOrder or RowVerdict.Repeated))
                {
                    return true;
                }

                Counters.Reject(stage.Verdict[stage.Done] == RowVerdict.Repeated ? RejectReasons.TimeRepeated : RejectReasons.TimeBackwards);
                stage.Done++;
            }

            if (reader.Ended && stage.Done == stage.Count)
            {
                return false;
            }

            Refill();
        }
    }

    private void Refill()
    {
        stage.Compact();
        reader.Fill(stage);
        CsvRejects.Count(reader, Counters);
        if (line is not null)
        {
            line.Judge(stage, reader.Ended);
            return;
        }

        for (; stage.Judged < stage.Count; stage.Judged++)
        {
            var rejected = stage.RejectedBefore[stage.Judged];
            stage.Missing[stage.Judged] = delivered ? rejected : 0;
            stage.Verdict[stage.Judged] = rejected > 0 && delivered ? RowVerdict.AfterGap : RowVerdict.Follows;
            delivered = true;
        }
    }

    /// <summary>Copies the rows up to the next that does not simply follow.</summary>
    private int Take(SampleBlock block, int at)
    {
        var first = stage.Done;
        var verdict = stage.Verdict[first];
        if (at == 0)
        {
            block.StartSeconds = clock.Begin(verdict, stage.Time[first], stage.Missing[first]);
            if (verdict != RowVerdict.Follows)
            {
                (block.GapBefore, block.MissingBefore) = (true, stage.Missing[first]);
                Counters.Gaps++;
                Counters.MissingSamples += stage.Missing[first];
            }
        }

        var others = stage.Verdict.AsSpan(first + 1, stage.Judged - first - 1).IndexOfAnyExcept(RowVerdict.Follows);
        var count = Math.Min(others < 0 ? stage.Judged - first : others + 1, block.Capacity - at);
        for (var i = 0; i < block.Channels; i++)
        {
            stage.Values[i].AsSpan(first, count).CopyTo(block.Fill(i)[at..]);
        }

        if (Info.HasSupply)
        {
            stage.Values[^1].AsSpan(first, count).CopyTo(block.FillSupply()[at..]);
            block.HasSupply = true;
        }

        if (stamped)
        {
            stage.Time.AsSpan(first, count).CopyTo(block.FillTimes()[at..]);
            block.HasTimes = true;
        }

        Clipping.Mark(block, at, count);
        clock.Advance(count);
        stage.Done += count;
        return count;
    }
}
