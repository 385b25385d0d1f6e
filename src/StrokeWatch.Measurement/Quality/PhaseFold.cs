namespace StrokeWatch.Measurement.Quality;

/// <summary>One axis of a window folded onto one cycle of the drive: mean, phase and number of the samples in each of 64 bins, and the noise inside the bins.</summary>
internal sealed class PhaseFold
{
    /// <summary>The most bins that are filled.</summary>
    public const int Bins = 64;

    /// <summary>The highest order of the cosines and sines at hand.</summary>
    public const int MostOrders = 12;

    /// <summary>The bins' own blur, as a share of the swing: what the bend of a sine over a bin leaves beside a straight line.</summary>
    private const double Blur = 5e-4;

    private readonly double[] counts = new double[Bins];
    private readonly double[] means = new double[Bins];
    private readonly double[] phases = new double[Bins];
    private readonly double[] phaseSquares = new double[Bins];
    private readonly double[] products = new double[Bins];
    private readonly double[] squares = new double[Bins];
    private readonly double[] basis = new double[Bins * (2 * MostOrders + 1)];

    /// <summary>Gets the number of bins that hold samples.</summary>
    public int Filled { get; private set; }

    /// <summary>Gets the number of samples folded.</summary>
    public int Samples { get; private set; }

    /// <summary>Gets the variance of a sample about its bin, rounding of the samples included.</summary>
    public double Variance { get; private set; }

    /// <summary>Gets the smallest step between samples near the top, 0 where it is far below the noise.</summary>
    public double Quantum { get; private set; }

    /// <summary>Gets the samples in each filled bin.</summary>
    public ReadOnlySpan<double> Counts => counts.AsSpan(0, Filled);

    /// <summary>Gets the mean of each filled bin.</summary>
    public ReadOnlySpan<double> Means => means.AsSpan(0, Filled);

    /// <summary>Gives 1, cos φ, sin φ, cos 2φ … of a filled bin, 2·<see cref="MostOrders"/> + 1 numbers.</summary>
    public ReadOnlySpan<double> Basis(int bin) => basis.AsSpan(bin * (2 * MostOrders + 1), 2 * MostOrders + 1);

    /// <summary>Folds a window.</summary>
    /// <param name="values">The samples.</param>
    /// <param name="cyclesPerSample">The drive.</param>
    /// <param name="bottom">The smallest sample.</param>
    /// <param name="top">The largest sample.</param>
    public void Take(ReadOnlySpan<double> values, double cyclesPerSample, double bottom, double top)
    {
        Array.Clear(counts);
        Array.Clear(means);
        Array.Clear(phases);
        Array.Clear(phaseSquares);
        Array.Clear(products);
        Array.Clear(squares);
        Samples = values.Length;
        var quantum = top - bottom;
        var least = 1e-9 * quantum;
        var place = -0.5 * cyclesPerSample * (values.Length - 1);
        place -= Math.Floor(place);
        foreach (var value in values)
        {
            // About the bin's middle and the window's: small numbers lose no digits.
            var bin = Math.Min((int)(place * Bins), Bins - 1);
            var (phase, above) = (place - (bin + 0.5) / Bins, value - bottom);
            counts[bin]++;
            means[bin] += above;
            phases[bin] += phase;
            phaseSquares[bin] += phase * phase;
            products[bin] += phase * above;
            squares[bin] += above * above;
            var away = top - value;
            quantum = away > least && away < quantum ? away : quantum;
            place += cyclesPerSample;
            place -= place >= 1 ? 1 : 0;
        }

        Close(bottom, top - bottom, quantum);
    }

    private void Close(double bottom, double swing, double quantum)
    {
        double within = 0, freedom = 0;
        Filled = 0;
        for (var bin = 0; bin < Bins; bin++)
        {
            var n = counts[bin];
            if (n <= 0)
            {
                continue;
            }

            var (mean, phase) = (means[bin] / n, phases[bin] / n);
            var spread = phaseSquares[bin] - n * phase * phase;
            var slope = products[bin] - n * phase * mean;
            var sloping = n > 2 && spread > 1e-12 * n;
            within += squares[bin] - n * mean * mean - (sloping ? slope * slope / spread : 0);
            freedom += n - (sloping ? 2 : 1);
            (counts[Filled], means[Filled]) = (n, mean + bottom);
            Tabulate(Filled++, 2 * Math.PI * ((bin + 0.5) / Bins + phase));
        }

        var blur = Blur * swing;
        Quantum = quantum;
        Variance = Math.Max(Math.Max(freedom > 0 ? within / freedom : 0, quantum * quantum / 12), blur * blur);
    }

    private void Tabulate(int row, double phase)
    {
        var (sin, cos) = Math.SinCos(phase);
        var target = basis.AsSpan(row * (2 * MostOrders + 1));
        double c = 1, s = 0;
        target[0] = 1;
        for (var k = 1; k <= MostOrders; k++)
        {
            (c, s) = (c * cos - s * sin, s * cos + c * sin);
            (target[2 * k - 1], target[2 * k]) = (c, s);
        }
    }
}
