namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// The least-squares fit of a constant and all harmonics of one frequency to every axis of a window (IEEE Std 1057's fit, extended to harmonics):
/// y = c₀ + Σ cₖ cos kφ + sₖ sin kφ, φ = 2πνt, t counted from the middle of the window.
/// </summary>
/// <remarks>Cosines and sines decouple about the middle, so two small systems with closed-form entries are solved exactly: the window need not hold whole cycles.</remarks>
internal sealed class HarmonicFit : IWindowHarmonics
{
    /// <summary>The parts into which a window is cut to follow amplitude and phase inside it.</summary>
    public const int Parts = PartFit.Parts;

    private const int MostIterations = 8;
    private const double SettledCycles = 2e-3;

    private readonly SmallSystem cosineSystem;
    private readonly SmallSystem sineSystem;
    private readonly double[][] cosine;
    private readonly double[][] sine;
    private readonly PartFit parts;
    private readonly double[] squares;
    private readonly double[] means;
    private readonly double[] sums;

    /// <summary>Makes a fit for a number of axes and a largest order.</summary>
    public HarmonicFit(int axes, int largestOrder)
    {
        Axes = axes;
        LargestOrder = largestOrder;
        cosineSystem = new(largestOrder + 1, axes);
        sineSystem = new(largestOrder + 1, axes);
        cosine = [.. Enumerable.Range(0, axes).Select(_ => new double[largestOrder + 1])];
        sine = [.. Enumerable.Range(0, axes).Select(_ => new double[largestOrder + 1])];
        parts = new(axes, largestOrder);
        squares = new double[axes];
        means = new double[axes];
        sums = new double[2 * largestOrder + 1];
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

    /// <inheritdoc/>
    public double CoefficientShare => 2.0 / Count;

    /// <summary>Gives the cosine coefficients of an axis, index 0 being the constant.</summary>
    public ReadOnlySpan<double> Cosine(int axis) => cosine[axis].AsSpan(0, Orders + 1);

    /// <summary>Gives the sine coefficients of an axis, index 0 being unused.</summary>
    public ReadOnlySpan<double> Sine(int axis) => sine[axis].AsSpan(0, Orders + 1);

    /// <summary>Gives the fundamental's cosine and sine amplitude on an axis in one part of the window.</summary>
    public (double Cosine, double Sine) Part(int axis, int part)
    {
        var (c, s) = parts.Deviation(axis, part);
        return (cosine[axis][1] + c, sine[axis][1] + s);
    }

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
        var folded = FoldedWindow.OfThread(Axes);
        folded.Fold(axes, start, count, means);
        for (var i = 0; ; i++)
        {
            if (!(frequency > 0) || frequency * Orders >= 0.5 || !Solve(folded, axes, start, frequency))
            {
                return false;
            }

            var step = parts.FrequencyStep(cosine, sine);
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

    private bool Solve(FoldedWindow folded, double[][] axes, int start, double frequency)
    {
        Frequency = frequency;
        folded.Correlate(frequency, Orders, cosine, sine);
        Dirichlet.Cosines(frequency, Count, sums.AsSpan(0, 2 * Orders + 1));
        for (var row = 0; row <= Orders; row++)
        {
            var cosines = cosineSystem.Row(row);
            cosines[row] = row == 0 ? sums[0] : 0.5 * (sums[0] + sums[2 * row]);
            for (var column = row + 1; column <= Orders; column++)
            {
                var (difference, sum) = (sums[column - row], sums[row + column]);
                cosines[column] = row == 0 ? sum : 0.5 * (difference + sum);
            }

            if (row > 0)
            {
                var sines = sineSystem.Row(row - 1);
                for (var column = row; column <= Orders; column++)
                {
                    sines[column - 1] = 0.5 * (sums[column - row] - sums[row + column]);
                }
            }
        }

        if (!cosineSystem.Factor(Orders + 1) || !sineSystem.Factor(Orders))
        {
            return false;
        }

        Unknowns();
        parts.Correlate(axes, start, Count, frequency, means);
        parts.Compare(cosine, sine, means, Orders);
        return true;
    }

    /// <summary>Solves for the amplitudes of all axes and takes what they explain off the squares.</summary>
    private void Unknowns()
    {
        for (var a = 0; a < Axes; a++)
        {
            cosineSystem[0, a] = cosine[a][0];
            for (var k = 1; k <= Orders; k++)
            {
                (cosineSystem[k, a], sineSystem[k - 1, a]) = (cosine[a][k], sine[a][k]);
            }
        }

        cosineSystem.Solve();
        sineSystem.Solve();
        SquaredResiduals = 0;
        for (var a = 0; a < Axes; a++)
        {
            var explained = 0.0;
            for (var k = 0; k <= Orders; k++)
            {
                var c = cosineSystem[k, a];
                explained += cosine[a][k] * c;
                cosine[a][k] = c;
                if (k > 0)
                {
                    var s = sineSystem[k - 1, a];
                    explained += sine[a][k] * s;
                    sine[a][k] = s;
                }
            }

            SquaredResiduals += squares[a] - explained;
            cosine[a][0] += means[a];
        }
    }
}
