using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Windows;

/// <summary>Fits a window with even spacing, or with its samples' own times where the signal itself shows that they are true.</summary>
internal sealed class WindowFitter
{
    private readonly HarmonicFit even;
    private readonly TimeStampJudge judge;
    private readonly OrderChoice choice = new();
    private readonly int longest;
    private readonly double stampRateHz;
    private TimedHarmonicFit? timed;
    private double[] places = [];
    private double[] grid = [];

    /// <summary>Makes a fitter.</summary>
    /// <param name="axes">Number of axes.</param>
    /// <param name="largestOrder">Largest order.</param>
    /// <param name="longest">Most samples in a window.</param>
    /// <param name="stampRateHz">The mean rate by the stamps' own clock.</param>
    /// <param name="believed">Whether stamps are used until the signal contradicts them.</param>
    public WindowFitter(int axes, int largestOrder, int longest, double stampRateHz, bool believed)
    {
        (this.longest, this.stampRateHz) = (longest, stampRateHz);
        (even, judge) = (new(axes, largestOrder), new(believed));
        Harmonics = even;
    }

    /// <summary>Gets the fit of the last window.</summary>
    public IWindowHarmonics Harmonics { get; private set; }

    /// <summary>Gets whether the last window was fitted with its samples' own times.</summary>
    public bool Timed => ReferenceEquals(Harmonics, timed);

    /// <summary>Fits the first samples of a buffer, the frequency followed; false where they cannot be fitted.</summary>
    /// <param name="buffer">The buffer.</param>
    /// <param name="count">How many of its samples.</param>
    /// <param name="frequency">Frequency in cycles a sample, to start from.</param>
    /// <param name="orders">The most orders; fewer are fitted where the windows before hold nothing above them.</param>
    public bool Follow(WindowBuffer buffer, int count, double frequency, int orders)
    {
        var all = Math.Min(orders, even.LargestOrder);
        var solved = FollowTo(buffer, count, frequency, choice.Orders(all));
        if (solved && choice.Take(Harmonics, all))
        {
            solved = FollowTo(buffer, count, Harmonics.MeasuredFrequency, all);
            _ = solved && choice.Take(Harmonics, all);
        }

        return solved;
    }

    /// <summary>Fits the same samples once more at a fixed frequency, spaced as they were fitted before.</summary>
    public bool Fixed(WindowBuffer buffer, int count, double frequency, int orders) => Timed
        ? timed!.Fit(buffer.Axes, buffer.First, places.AsSpan(0, count), frequency, orders, follow: false)
        : even.Fit(buffer.Axes, buffer.First, count, frequency, orders, follow: false);

    /// <summary>Fits the first samples of a buffer as another sensor's of the same times were: at its frequency, orders and spacing; false where they cannot be fitted.</summary>
    public bool Beside(WindowBuffer buffer, int count, WindowFitter other)
    {
        var (frequency, orders) = (other.Harmonics.Frequency, other.Harmonics.Orders);
        if (!other.Timed || !Stamped(buffer.Times(count)))
        {
            Harmonics = even;
            return even.Fit(buffer.Axes, buffer.First, count, frequency, orders, follow: false);
        }

        Harmonics = timed ??= new(even.Axes, even.LargestOrder);
        return timed.Fit(buffer.Axes, buffer.First, places.AsSpan(0, count), frequency, orders, follow: false);
    }

    /// <summary>Gives the places of the last window's samples; empty where they were taken as evenly spaced.</summary>
    public ReadOnlySpan<double> Places(int count) => Timed ? places.AsSpan(0, count) : default;

    /// <summary>Moves a signal of the last window onto even spacing: its harmonics exactly, what they leave over by straight lines between neighbours.</summary>
    /// <param name="line">The signal, one value a sample.</param>
    /// <param name="path">Its harmonics.</param>
    public void Even(Span<double> line, LineHarmonics path)
    {
        if (!Timed)
        {
            return;
        }

        for (var n = 0; n < line.Length; n++)
        {
            line[n] -= Value(path, places[n]);
        }

        var left = 0;
        for (var n = 0; n < line.Length; n++)
        {
            var at = n - 0.5 * (line.Length - 1);
            while (left < line.Length - 2 && places[left + 1] < at)
            {
                left++;
            }

            var width = places[left + 1] - places[left];
            var share = width > 0 ? Math.Clamp((at - places[left]) / width, 0, 1) : 0;
            grid[n] = Value(path, at) + (1 - share) * line[left] + share * line[left + 1];
        }

        grid.AsSpan(0, line.Length).CopyTo(line);
    }

    private double Value(LineHarmonics path, double place)
    {
        var (sin, cos) = Math.SinCos(2 * Math.PI * Harmonics.Frequency * place);
        return HarmonicValue.At(path.LineCosine, path.LineSine, Harmonics.Orders, cos, sin);
    }

    private bool FollowTo(WindowBuffer buffer, int count, double frequency, int orders)
    {
        Harmonics = even;
        if (!Stamped(buffer.Times(count)))
        {
            return even.Fit(buffer.Axes, buffer.First, count, frequency, orders, follow: true);
        }

        timed ??= new(even.Axes, even.LargestOrder);
        var window = places.AsSpan(0, count);
        if (!judge.Due)
        {
            judge.Skip();
            Harmonics = judge.Used ? timed : even;
            return judge.Used
                ? timed.Fit(buffer.Axes, buffer.First, window, frequency, orders, follow: true)
                : even.Fit(buffer.Axes, buffer.First, count, frequency, orders, follow: true);
        }

        var evenSolved = even.Fit(buffer.Axes, buffer.First, count, frequency, orders, follow: true);
        var timedSolved = timed.Fit(buffer.Axes, buffer.First, window, frequency, orders, follow: true);
        if (evenSolved && timedSolved)
        {
            judge.Take(even.SquaredResiduals, timed.SquaredResiduals, even.Axes * Math.Max(1.0, count - 2 * even.Orders - 2));
        }

        Harmonics = judge.Used && timedSolved ? timed : even;
        return Timed || evenSolved;
    }

    /// <summary>Turns stamps into places; false where a sample has none.</summary>
    private bool Stamped(ReadOnlySpan<double> times)
    {
        if (times.IsEmpty)
        {
            return false;
        }

        if (places.Length == 0)
        {
            (places, grid) = (new double[longest], new double[longest]);
        }

        return SamplePlaces.Of(times, stampRateHz, places);
    }
}
