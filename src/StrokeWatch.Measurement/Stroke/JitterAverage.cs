namespace StrokeWatch.Measurement.Stroke;

/// <summary>The sampling jitter over the windows so far, each weighed by what it can tell; the last 64 windows count as a rule.</summary>
internal sealed class JitterAverage
{
    private const double StandsOutAt = 4;
    private const double StaysAt = 2;
    private const double Memory = 64;
    private const double MostOther = 10;

    private double weight;
    private double square;
    private double shared;
    private double other;
    private bool clear;

    /// <summary>Gets the number of windows taken.</summary>
    public int Count { get; private set; }

    /// <summary>Gets σₜ² in s², with its random error of either sign.</summary>
    public double Variance { get; private set; }

    /// <summary>Gets the standard deviation of <see cref="Variance"/>.</summary>
    public double Deviation => Math.Sqrt(square);

    /// <summary>Gets whether jitter stands out: by four standard deviations (two, once it has), no more than half of it shared by neighbours or of another shape.</summary>
    public bool Clear => clear;

    /// <summary>Takes a window.</summary>
    public void Take(in JitterWindow window)
    {
        if (!double.IsFinite(window.Variance + window.Deviation + window.Shared) || !(window.Weight > 0))
        {
            return;
        }

        Count++;
        var sum = (Count > Memory ? 1 - 1 / Memory : 1) * weight + window.Weight;
        var share = window.Weight / sum;
        Variance += share * (window.Variance - Variance);
        shared += share * (window.Shared - shared);
        other += share * (Math.Min(window.Other, MostOther) - other);
        square = (1 - share) * (1 - share) * square + share * share * window.Deviation * window.Deviation;
        weight = sum;
        clear = Variance > (clear ? StaysAt : StandsOutAt) * Deviation && Math.Abs(shared) < 0.5 * Variance && other < 0.5;
    }
}
