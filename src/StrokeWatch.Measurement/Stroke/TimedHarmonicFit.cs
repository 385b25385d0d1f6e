namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// The least-squares fit of <see cref="HarmonicFit"/> to samples at any places: cosines and sines no longer decouple, and the sums over the places take
/// the part of the closed forms; products of two harmonics are sums of others, so that sums up to twice the highest order fill the whole system.
/// </summary>
internal sealed class TimedHarmonicFit : IWindowHarmonics
{
    private const int Parts = HarmonicFit.Parts;
    private const int MostIterations = 8;
    private const double SettledCycles = 2e-3;

    private readonly int largestOrder;
    private readonly SmallSystem system;
    private readonly double[][] cosine;
    private readonly double[][] sine;
    private readonly double[][] right;
    private readonly double[] cosineSums;
    private readonly double[] sineSums;
    private readonly double[] means;
    private readonly double[] partCosine;
    private readonly double[] partSine;
    private readonly double[] partMiddle = new double[Parts];

    /// <summary>Makes a fit for a number of axes and a largest order.</summary>
    public TimedHarmonicFit(int axes, int largestOrder)
    {
        (Axes, this.largestOrder) = (axes, largestOrder);
        system = new(2 * largestOrder + 1, axes + 2);
        double[][] Arrays(int length) => [.. Enumerable.Range(0, axes).Select(_ => new double[length])];
        (cosine, sine, right) = (Arrays(largestOrder + 1), Arrays(largestOrder + 1), Arrays(2 * largestOrder + 1));
        (cosineSums, sineSums) = (new double[2 * largestOrder + 1], new double[2 * largestOrder + 1]);
        (partCosine, partSine, means) = (new double[axes * Parts], new double[axes * Parts], new double[axes]);
    }

    /// <inheritdoc/>
    public int Axes { get; }

    /// <inheritdoc/>
    public int Orders { get; private set; }

    /// <inheritdoc/>
    public double Frequency { get; private set; }

    /// <inheritdoc/>
    public double MeasuredFrequency { get; private set; }

    /// <inheritdoc/>
    public int Count { get; private set; }

    /// <inheritdoc/>
    public double SquaredResiduals { get; private set; }

    /// <inheritdoc/>
    public double ResidualDeviation => Math.Sqrt(SquaredResiduals / (Axes * Math.Max(1.0, Count - 2 * Orders - 1)));

    /// <inheritdoc/>
    public double CoefficientShare { get; private set; }

    /// <inheritdoc/>
    public ReadOnlySpan<double> Cosine(int axis) => cosine[axis].AsSpan(0, Orders + 1);

    /// <inheritdoc/>
    public ReadOnlySpan<double> Sine(int axis) => sine[axis].AsSpan(0, Orders + 1);

    /// <inheritdoc/>
    public (double Cosine, double Sine) Part(int axis, int part) =>
        (cosine[axis][1] + partCosine[axis * Parts + part], sine[axis][1] + partSine[axis * Parts + part]);

    /// <summary>Fits a window; false where the system cannot be solved.</summary>
    /// <param name="axes">One array an axis.</param>
    /// <param name="start">First sample.</param>
    /// <param name="places">The place of each sample in samples of even spacing, counted from their mean.</param>
    /// <param name="frequency">Frequency in cycles a sample, or its start value.</param>
    /// <param name="orders">Highest order fitted.</param>
    /// <param name="follow">True to follow the frequency by the phase inside the window.</param>
    public bool Fit(double[][] axes, int start, ReadOnlySpan<double> places, double frequency, int orders, bool follow)
    {
        Count = places.Length;
        Orders = Math.Min(orders, Math.Min(largestOrder, (Count - 2) / 2));
        for (var a = 0; a < Axes; a++)
        {
            means[a] = Lanes.Moments(axes[a].AsSpan(start, Count)).Mean;
        }

        for (var i = 0; ; i++)
        {
            if (Orders < 1 || !(frequency > 0) || frequency * Orders >= 0.5 || !Solve(axes, start, places, frequency))
            {
                return false;
            }

            Residuals(axes, start, places);
            var step = FrequencyStep();
            MeasuredFrequency = frequency + step;
            if (Math.Abs(step) * Count < SettledCycles || i == MostIterations || !follow)
            {
                return true;
            }

            frequency += Math.Clamp(step, -0.5 / Count, 0.5 / Count);
        }
    }

    private bool Solve(double[][] axes, int start, ReadOnlySpan<double> places, double frequency)
    {
        Frequency = frequency;
        Sum(axes, start, places);
        for (var row = 0; row <= Orders; row++)
        {
            var cosines = system.Row(row);
            for (var column = row; column <= Orders; column++)
            {
                cosines[column] = 0.5 * (cosineSums[column - row] + cosineSums[row + column]);
            }

            for (var column = 1; column <= Orders; column++)
            {
                cosines[Orders + column] = 0.5 * (sineSums[row + column] + Math.Sign(column - row) * sineSums[Math.Abs(column - row)]);
            }

            if (row > 0)
            {
                var sines = system.Row(Orders + row);
                for (var column = row; column <= Orders; column++)
                {
                    sines[Orders + column] = 0.5 * (cosineSums[column - row] - cosineSums[row + column]);
                }
            }
        }

        if (!system.Factor(2 * Orders + 1))
        {
            return false;
        }

        Unknowns();
        return true;
    }

    /// <summary>Solves for the amplitudes of all axes, and beside them for two columns of the inverse: the fundamental's.</summary>
    private void Unknowns()
    {
        for (var row = 0; row <= 2 * Orders; row++)
        {
            for (var a = 0; a < Axes; a++)
            {
                system[row, a] = right[a][row];
            }

            (system[row, Axes], system[row, Axes + 1]) = (row == 1 ? 1 : 0, row == Orders + 1 ? 1 : 0);
        }

        system.Solve();
        for (var a = 0; a < Axes; a++)
        {
            cosine[a][0] = means[a] + system[0, a];
            for (var k = 1; k <= Orders; k++)
            {
                (cosine[a][k], sine[a][k]) = (system[k, a], system[Orders + k, a]);
            }
        }

        CoefficientShare = 0.5 * (system[1, Axes] + system[Orders + 1, Axes + 1]);
    }

    private void Sum(double[][] axes, int start, ReadOnlySpan<double> places)
    {
        Array.Clear(cosineSums);
        Array.Clear(sineSums);
        for (var a = 0; a < Axes; a++)
        {
            Array.Clear(right[a]);
        }

        for (var n = 0; n < places.Length; n++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * Frequency * places[n]);
            double c = 1, s = 0;
            for (var k = 0; k <= 2 * Orders; k++, (c, s) = (c * cos - s * sin, s * cos + c * sin))
            {
                cosineSums[k] += c;
                sineSums[k] += s;
                for (var a = 0; a < Axes && k <= Orders; a++)
                {
                    var value = axes[a][start + n] - means[a];
                    right[a][k] += value * c;
                    right[a][Orders + k] += k > 0 ? value * s : 0;
                }
            }
        }
    }

    /// <summary>Adds up the squared residuals, and by part of the window what they hold of the fundamental.</summary>
    private void Residuals(double[][] axes, int start, ReadOnlySpan<double> places)
    {
        SquaredResiduals = 0;
        for (var part = 0; part < Parts; part++)
        {
            var (first, end) = ((int)((long)Count * part / Parts), (int)((long)Count * (part + 1) / Parts));
            var middle = 0.0;
            for (var a = 0; a < Axes; a++)
            {
                double re = 0, im = 0;
                for (var n = first; n < end; n++)
                {
                    var (sin, cos) = Math.SinCos(2 * Math.PI * Frequency * places[n]);
                    var rest = axes[a][start + n] - HarmonicValue.At(cosine[a], sine[a], Orders, cos, sin);
                    SquaredResiduals += rest * rest;
                    (re, im) = (re + rest * cos, im + rest * sin);
                    middle += a == 0 ? places[n] : 0;
                }

                var scale = 2.0 / Math.Max(1, end - first);
                (partCosine[a * Parts + part], partSine[a * Parts + part]) = (re * scale, im * scale);
            }

            partMiddle[part] = middle / Math.Max(1, end - first);
        }
    }

    private double FrequencyStep()
    {
        double power = 0, slope = 0, spread = 0;
        for (var a = 0; a < Axes; a++)
        {
            power += cosine[a][1] * cosine[a][1] + sine[a][1] * sine[a][1];
        }

        for (var part = 0; part < Parts; part++)
        {
            var turn = 0.0;
            for (var a = 0; a < Axes; a++)
            {
                turn += cosine[a][1] * partSine[a * Parts + part] - sine[a][1] * partCosine[a * Parts + part];
            }

            // As in the even fit: c cos φ + s sin φ lags by atan2(s, c), and a growing lag is a lower frequency.
            slope -= partMiddle[part] * turn;
            spread += partMiddle[part] * partMiddle[part];
        }

        return power > 0 ? slope / (power * spread * 2 * Math.PI) : 0;
    }
}
