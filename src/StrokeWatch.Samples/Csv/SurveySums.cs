namespace StrokeWatch.Samples.Csv;

/// <summary>What the judged rows of a table come to: how many are delivered, over which time, at which rate.</summary>
internal sealed class SurveySums
{
    private readonly RateFit fit;
    private double span;
    private double stretchStart = double.NaN;
    private double last = double.NaN;

    /// <summary>Makes empty sums around a rough step in seconds.</summary>
    public SurveySums(double step) => fit = new RateFit(step);

    /// <summary>Gets the rows that will be delivered.</summary>
    public long Samples { get; private set; }

    /// <summary>Gets the seconds from the first time to the last, what a clock was set back left out.</summary>
    public double SpanSeconds => span + (last - stretchStart);

    /// <summary>Ends the last stretch and gives the rate of all of them.</summary>
    public RateFit Fit()
    {
        fit.EndStretch();
        return fit;
    }

    /// <summary>Takes all rows of a stage that are judged.</summary>
    public void Take(RowStage stage)
    {
        while (stage.Done < stage.Judged)
        {
            var first = stage.Done++;
            var verdict = stage.Verdict[first];
            if (verdict is RowVerdict.OutOfOrder or RowVerdict.Repeated)
            {
                continue;
            }

            var others = stage.Verdict.AsSpan(stage.Done, stage.Judged - stage.Done).IndexOfAnyExcept(RowVerdict.Follows);
            stage.Done = others < 0 ? stage.Judged : stage.Done + others;
            Add(stage.Time.AsSpan(first, stage.Done - first), verdict);
        }
    }

    /// <summary>Adds rows that follow one another; the verdict is the first one's.</summary>
    private void Add(ReadOnlySpan<double> times, RowVerdict verdict)
    {
        if (verdict != RowVerdict.Follows)
        {
            fit.EndStretch();
        }

        if (verdict == RowVerdict.AfterSetBack)
        {
            span += last - stretchStart;
            stretchStart = times[0];
        }

        fit.Add(times);
        Samples += times.Length;
        for (var i = 0; i < times.Length && double.IsNaN(stretchStart); i++)
        {
            stretchStart = times[i];
        }

        for (var i = times.Length - 1; i >= 0; i--)
        {
            if (!double.IsNaN(times[i]))
            {
                last = times[i];
                break;
            }
        }
    }
}
