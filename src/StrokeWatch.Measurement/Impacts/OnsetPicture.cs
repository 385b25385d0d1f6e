using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>A machine's pattern: its orders along the line about the end of the path at which the acceleration is greatest, and where in the cycle it varies. Of one window, or the mean of some.</summary>
internal sealed class OnsetPicture
{
    /// <summary>A line turned by more than this is another mounting.</summary>
    private const double LeastCosine = 0.9;

    /// <summary>So large a change of the drive's frequency is another drive.</summary>
    private const double MostFrequencyChange = 0.03;

    /// <summary>The most that each window of a mean weighs over a new one: after so noisy a window, in which a load or a supply has changed, the next ones say what the machine now is.</summary>
    private const double MostWeight = 100;

    /// <summary>A floor in m²/s⁴ far below all that sensors give: none is zero.</summary>
    private const double LeastFloor = 1e-30;

    internal const int MostAxes = 3;
    private const int Width = Windows.WindowAnalysis.MostOrders + 1;
    private readonly double[] axes = new double[2 * MostAxes * Width];
    private readonly double[] direction = new double[MostAxes];
    private readonly PhaseTrack track = new();
    private double seconds, radians;
    private double weights, variance;

    /// <summary>Gets the real parts by order, in m/s²; 1 is the fundamental's amplitude.</summary>
    public double[] Real { get; } = new double[Windows.WindowAnalysis.MostOrders + 1];

    /// <summary>Gets the imaginary parts by order.</summary>
    public double[] Imaginary { get; } = new double[Windows.WindowAnalysis.MostOrders + 1];

    /// <summary>Gets the variance of cycles by sixteenths of the cycle.</summary>
    public double[] Varied { get; } = new double[BlowFeatures.Sectors];

    /// <summary>Gets the number of axes.</summary>
    public int Axes { get; private set; }

    /// <summary>Gets the highest order.</summary>
    public int Orders { get; private set; }

    /// <summary>Gets what noise makes of an order's power in one window, in m²/s⁴; of a mean, that of windows all alike.</summary>
    public double Floor { get; private set; }

    /// <summary>Gets the drive's frequency in Hz.</summary>
    public double DriveHz { get; private set; }

    /// <summary>Gets of how many windows it is the mean.</summary>
    public int Count { get; private set; }

    /// <summary>Tells by how much a window's fundamental is ahead of where this mean's last windows said that it would be.</summary>
    public PhaseLead Lead(OnsetPicture window) => track.Of(window.seconds, window.radians, window.DriveHz);

    /// <summary>Gets an order's real part by axis, in m/s²; the imaginary one.</summary>
    public (double Real, double Imaginary) At(int axis, int order) => (axes[(2 * axis * Width) + order], axes[(((2 * axis) + 1) * Width) + order]);

    /// <summary>Takes one window, its middle in seconds.</summary>
    public void Take(IWindowHarmonics fit, LineHarmonics path, double rateHz, HeardBlows heard, double middle)
    {
        DriveHz = fit.Frequency * rateHz;
        Orders = Math.Min(Real.Length - 1, Math.Min(fit.Orders, (int)(Windows.OrderChoice.Share(rateHz) / fit.Frequency)));

        Axes = Math.Min(MostAxes, fit.Axes);

        // Each order about the moment at which the fundamental is greatest: turned by so many times its phase.
        var (re, im) = (path.LineCosine[1], path.LineSine[1]);
        var amplitude = Math.Sqrt((re * re) + (im * im));
        (seconds, radians) = (middle, Math.Atan2(-im, re));
        var (cos, sin) = amplitude > 0 ? (re / amplitude, im / amplitude) : (1, 0);
        Span<double> turnCos = stackalloc double[Orders + 1];
        Span<double> turnSin = stackalloc double[Orders + 1];
        var (c, s) = (cos, sin);
        for (var k = 1; k <= Orders; k++)
        {
            (turnCos[k], turnSin[k]) = (c, s);
            (c, s) = ((c * cos) - (s * sin), (s * cos) + (c * sin));
        }

        Turned(path.LineCosine, path.LineSine, turnCos, turnSin, Real, Imaginary);
        for (var axis = 0; axis < Axes; axis++)
        {
            Turned(fit.Cosine(axis), fit.Sine(axis), turnCos, turnSin, axes.AsSpan(2 * axis * Width, Width), axes.AsSpan(((2 * axis) + 1) * Width, Width));
        }

        Floor = Math.Max(2 * fit.ResidualDeviation * fit.ResidualDeviation * fit.CoefficientShare, Math.Max(1e-12 * Real[1] * Real[1], LeastFloor));
        heard.Varied.CopyTo(Varied, 0);
        Array.Clear(direction);
        path.Direction.CopyTo(direction);
        Count = 1;
    }

    /// <summary>Forgets all.</summary>
    public void Clear() => Count = 0;

    /// <summary>Says whether a window is of the same machine, sensor and drive; a line that points the other way is turned about.</summary>
    public bool Fits(OnsetPicture window)
    {
        if (Count == 0 || Math.Abs((window.DriveHz / DriveHz) - 1) > MostFrequencyChange || window.Orders == 0 || window.Axes != Axes)
        {
            return false;
        }

        var cosine = (direction[0] * window.direction[0]) + (direction[1] * window.direction[1]) + (direction[2] * window.direction[2]);
        if (Math.Abs(cosine) < LeastCosine)
        {
            return false;
        }

        if (cosine < 0)
        {
            Turn();
        }

        return true;
    }

    /// <summary>
    /// Takes a window into the mean, which becomes one over the last so many windows. They weigh inversely to the variance that noise leaves them, which makes that of the mean least (Gauss and Markov, from memory): where a load changes within a
    /// window, its noise is a thousand times that of others, and a plain mean would hide in it what comes next.
    /// </summary>
    public void Blend(OnsetPicture window, int most)
    {
        if (Count == 0)
        {
            (Orders, Axes, weights, variance) = (window.Orders, window.Axes, 0, 0);
            Array.Clear(axes);
            Array.Clear(Real);
            Array.Clear(Imaginary);
            Array.Clear(Varied);
            track.Clear();
        }

        var weight = 1 / window.Floor;
        weights = Math.Min(weights * (Count < most ? 1 : (most - 1.0) / most), Count * MostWeight * weight) + weight;
        Count = Math.Min(most, Count + 1);
        var (share, plain) = (weight / weights, 1.0 / Count);
        variance = ((1 - share) * (1 - share) * variance) + (share * share * window.Floor);
        Floor = Count * variance;
        Orders = Math.Min(Orders, window.Orders);
        for (var k = 1; k <= Orders; k++)
        {
            Real[k] += share * (window.Real[k] - Real[k]);
            Imaginary[k] += share * (window.Imaginary[k] - Imaginary[k]);
        }

        var mean = axes.AsSpan(0, 2 * Axes * Width);
        Stroke.Lanes.Weigh(mean, 1 - share, mean);
        Stroke.Lanes.AddWeighted(window.axes.AsSpan(0, mean.Length), share, mean);

        for (var s = 0; s < Varied.Length; s++)
        {
            Varied[s] += plain * (window.Varied[s] - Varied[s]);
        }

        DriveHz = window.DriveHz;
        window.direction.CopyTo(direction, 0);
        track.Take(window.seconds, window.radians, window.DriveHz);
    }

    private static void Turned(ReadOnlySpan<double> cosine, ReadOnlySpan<double> sine, ReadOnlySpan<double> turnCos, ReadOnlySpan<double> turnSin, Span<double> real, Span<double> imaginary)
    {
        for (var k = 1; k < turnCos.Length; k++)
        {
            var (a, b, c, s) = (cosine[k], sine[k], turnCos[k], turnSin[k]);
            real[k] = (a * c) + (b * s);
            imaginary[k] = (a * s) - (b * c);
        }
    }

    /// <summary>Turns the line about: a push the other way, the other end of the path first.</summary>
    private void Turn()
    {
        track.Turn();
        for (var k = 2; k <= Orders; k += 2)
        {
            (Real[k], Imaginary[k]) = (-Real[k], -Imaginary[k]);
        }

        for (var row = 0; row < 2 * Axes; row++)
        {
            for (var k = 1; k <= Orders; k += 2)
            {
                axes[(row * Width) + k] = -axes[(row * Width) + k];
            }
        }

        var half = Varied.Length / 2;
        for (var s = 0; s < half; s++)
        {
            (Varied[s], Varied[s + half]) = (Varied[s + half], Varied[s]);
        }
    }
}
