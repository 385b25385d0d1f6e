namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// The least-squares fit of a constant and all harmonics of one frequency to every axis of a window (IEEE Std 1057's fit, extended to harmonics):
/// y = c₀ + Σ cₖ cos kφ + sₖ sin kφ, φ = 2πνt, t counted from the middle of the window.
/// </summary>
/// <remarks>Cosines and sines decouple about the middle, so two small systems with closed-form entries are solved exactly: the window need not hold whole cycles.</remarks>
internal sealed class HarmonicFit
{
    /// <summary>The parts into which a window is cut to follow amplitude and phase inside it.</summary>
    public const int Parts = 8;

    private const int MostIterations = 8;
    private const double SettledCycles = 2e-3;

    private readonly SmallSystem cosineSystem;
    private readonly SmallSystem sineSystem;
    private readonly double[][] cosine;
    private readonly double[][] sine;
    private readonly double[] cosineSums;
    private readonly double[] sineSums;
    private readonly double[] partCosine;
    private readonly double[] partSine;
    private readonly double[] squares;
    private readonly double[] means;
    private readonly double[] scratch;
    private readonly double[] wholeSums;
    private readonly double[] shortSums;
    private readonly double[] longSums;

    /// <summary>Makes a fit for a number of axes and a largest order.</summary>
    public HarmonicFit(int axes, int largestOrder)
    {
        Axes = axes;
        LargestOrder = largestOrder;
        cosineSystem = new(largestOrder + 1);
        sineSystem = new(largestOrder + 1);
        cosine = [.. Enumerable.Range(0, axes).Select(_ => new double[largestOrder + 1])];
        sine = [.. Enumerable.Range(0, axes).Select(_ => new double[largestOrder + 1])];
        cosineSums = new double[axes];
        sineSums = new double[axes];
        partCosine = new double[axes * Parts];
        partSine = new double[axes * Parts];
        squares = new double[axes];
        means = new double[axes];
        scratch = new double[2 * (largestOrder + 1)];
        wholeSums = new double[2 * largestOrder + 1];
        shortSums = new double[largestOrder + 2];
        longSums = new double[largestOrder + 2];
    }

    /// <summary>Gets the number of axes.</summary>
    public int Axes { get; }

    /// <summary>Gets the largest order there is room for.</summary>
    public int LargestOrder { get; }

    /// <summary>Gets the highest order fitted.</summary>
    public int Orders { get; private set; }

    /// <summary>Gets the frequency of the fit, in cycles a sample.</summary>
    public double Frequency { get; private set; }

    /// <summary>Gets the frequency that the phase inside the window tells, in cycles a sample.</summary>
    public double MeasuredFrequency { get; private set; }

    /// <summary>Gets the number of samples fitted.</summary>
    public int Count { get; private set; }

    /// <summary>Gets the sum of squared residuals of all axes.</summary>
    public double SquaredResiduals { get; private set; }

    /// <summary>Gets the standard deviation of the residual, one axis, in the samples' unit.</summary>
    public double ResidualDeviation => Math.Sqrt(Math.Max(0, SquaredResiduals) / (Axes * Math.Max(1.0, Count - 2 * Orders - 1)));

    /// <summary>Gives the cosine coefficients of an axis, index 0 being the constant.</summary>
    public ReadOnlySpan<double> Cosine(int axis) => cosine[axis].AsSpan(0, Orders + 1);

    /// <summary>Gives the sine coefficients of an axis, index 0 being unused.</summary>
    public ReadOnlySpan<double> Sine(int axis) => sine[axis].AsSpan(0, Orders + 1);

    /// <summary>Gives the fundamental's cosine and sine amplitude on an axis in one part of the window.</summary>
    public (double Cosine, double Sine) Part(int axis, int part) =>
        (cosine[axis][1] + partCosine[axis * Parts + part], sine[axis][1] + partSine[axis * Parts + part]);

    /// <summary>Fits a window; false where the system cannot be solved.</summary>
    /// <param name="axes">One array an axis.</param>
    /// <param name="start">First sample.</param>
    /// <param name="count">Number of samples.</param>
    /// <param name="frequency">Frequency in cycles a sample, or its start value.</param>
    /// <param name="orders">Highest order fitted.</param>
    /// <param name="follow">True to follow the frequency by the phase inside the window.</param>
    public bool Fit(double[][] axes, int start, int count, double frequency, int orders, bool follow)
    {
        Orders = Math.Min(orders, LargestOrder);
        Count = count;
        Moments(axes, start, count);
        for (var i = 0; ; i++)
        {
            if (!(frequency > 0) || frequency * Orders >= 0.5 || !Solve(axes, start, frequency))
            {
                return false;
            }

            var step = FrequencyStep();
            MeasuredFrequency = frequency + step;
            if (Math.Abs(step) * count < SettledCycles || i == MostIterations || !follow)
            {
                return true;
            }

            frequency += Math.Clamp(step, -0.5 / count, 0.5 / count);
        }
    }

    private void Moments(double[][] axes, int start, int count)
    {
        for (var a = 0; a < Axes; a++)
        {
            (means[a], squares[a]) = Lanes.Moments(axes[a].AsSpan(start, count));
        }
    }

    private bool Solve(double[][] axes, int start, double frequency)
    {
        Frequency = frequency;
        Tabulate();
        Correlate(axes, start);
        for (var row = 0; row <= Orders; row++)
        {
            for (var column = 0; column <= row; column++)
            {
                var (difference, sum) = (wholeSums[row - column], wholeSums[row + column]);
                cosineSystem[row, column] = column == 0 ? sum : 0.5 * (difference + sum);
                if (column > 0)
                {
                    sineSystem[row - 1, column - 1] = 0.5 * (difference - sum);
                }
            }
        }

        if (!cosineSystem.Factor(Orders + 1) || !sineSystem.Factor(Orders))
        {
            return false;
        }

        SquaredResiduals = 0;
        for (var a = 0; a < Axes; a++)
        {
            var c = cosine[a].AsSpan(0, Orders + 1);
            var s = sine[a].AsSpan(0, Orders + 1);
            var before = scratch.AsSpan();
            c.CopyTo(before);
            s.CopyTo(before[(Orders + 1)..]);
            cosineSystem.Solve(c);
            sineSystem.Solve(s[1..]);
            var explained = 0.0;
            for (var k = 0; k <= Orders; k++)
            {
                explained += before[k] * c[k] + (k > 0 ? before[Orders + 1 + k] * s[k] : 0);
            }

            SquaredResiduals += squares[a] - explained;
            c[0] += means[a];
        }

        PartResiduals();
        return true;
    }

    private void Tabulate()
    {
        for (var m = 0; m <= 2 * Orders; m++)
        {
            wholeSums[m] = Dirichlet.Cosines(m * Frequency, Count);
        }

        for (var m = 0; m <= Orders + 1; m++)
        {
            shortSums[m] = Dirichlet.Cosines(m * Frequency, Count / Parts);
            longSums[m] = Dirichlet.Cosines(m * Frequency, Count / Parts + 1);
        }
    }

    private double[] PartSums(int length) => length == Count / Parts ? shortSums : longSums;

    private void Correlate(double[][] axes, int start)
    {
        for (var a = 0; a < Axes; a++)
        {
            cosine[a][0] = cosine[a][1] = sine[a][0] = sine[a][1] = 0;
        }

        for (var part = 0; part < Parts; part++)
        {
            var (first, length, middle) = PartOf(part);
            HarmonicSums.Correlate(axes, start + first, length, Frequency, cosineSums, sineSums);
            var (sin, cos) = Math.SinCos(2 * Math.PI * Frequency * middle);
            var flat = PartSums(length)[1];
            for (var a = 0; a < Axes; a++)
            {
                var re = cosineSums[a] - means[a] * flat;
                var im = sineSums[a];
                (partCosine[a * Parts + part], partSine[a * Parts + part]) = (re, im);
                cosine[a][1] += re * cos - im * sin;
                sine[a][1] += im * cos + re * sin;
            }
        }

        for (var k = 2; k <= Orders; k++)
        {
            HarmonicSums.Correlate(axes, start, Count, k * Frequency, cosineSums, sineSums);
            var flat = wholeSums[k];
            for (var a = 0; a < Axes; a++)
            {
                cosine[a][k] = cosineSums[a] - means[a] * flat;
                sine[a][k] = sineSums[a];
            }
        }
    }

    /// <summary>Turns each part's correlation into the fundamental's deviation from the fit there.</summary>
    private void PartResiduals()
    {
        for (var part = 0; part < Parts; part++)
        {
            var (_, length, middle) = PartOf(part);
            var sums = PartSums(length);
            var (sin, cos) = Math.SinCos(2 * Math.PI * Frequency * middle);
            for (var a = 0; a < Axes; a++)
            {
                var re = partCosine[a * Parts + part] - (cosine[a][0] - means[a]) * sums[1];
                var im = partSine[a * Parts + part];
                double turnCos = cos, turnSin = sin;
                for (var k = 1; k <= Orders; k++)
                {
                    var c = cosine[a][k] * turnCos + sine[a][k] * turnSin;
                    var s = sine[a][k] * turnCos - cosine[a][k] * turnSin;
                    re -= 0.5 * c * (sums[k - 1] + sums[k + 1]);
                    im -= 0.5 * s * (sums[k - 1] - sums[k + 1]);
                    (turnCos, turnSin) = (turnCos * cos - turnSin * sin, turnSin * cos + turnCos * sin);
                }

                (re, im) = (2 * re / length, 2 * im / length);
                (partCosine[a * Parts + part], partSine[a * Parts + part]) = (re * cos - im * sin, im * cos + re * sin);
            }
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
            var (_, length, middle) = PartOf(part);
            var turn = 0.0;
            for (var a = 0; a < Axes; a++)
            {
                var (re, im) = (partCosine[a * Parts + part], partSine[a * Parts + part]);
                turn += cosine[a][1] * im - sine[a][1] * re;
            }

            // c cos φ + s sin φ lags by atan2(s, c): a growing lag is a lower frequency.
            slope -= length * middle * turn;
            spread += length * middle * middle;
        }

        return power > 0 ? slope / (power * spread * 2 * Math.PI) : 0;
    }

    private (int First, int Length, double Middle) PartOf(int part)
    {
        var first = (int)((long)Count * part / Parts);
        var next = (int)((long)Count * (part + 1) / Parts);
        return (first, next - first, first + 0.5 * (next - first - 1) - 0.5 * (Count - 1));
    }
}
