using System.Numerics;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>
/// What a transient's amplitudes, one a cycle, are made of: a free vibration that dies away and that falling material kicks at random, a magnet force that dies or
/// builds up, a steady motion, and noise; and how likely the amplitudes are for given decay, frequency and kicks.
/// </summary>
/// <remarks>
/// zₖ = Σ cⱼbⱼ(k) + uₖ + vₖ, uₖ₊₁ = p uₖ + wₖ: the kicks w pass through the free vibration's own pole p. The filter of Kalman makes the data and the columns bⱼ white, least squares
/// give the cⱼ, and the exact Gaussian likelihood of the rest is left (Harvey, Forecasting, Structural Time Series Models and the Kalman Filter, 1989, ch. 3, from memory).
/// </remarks>
internal sealed class SwingModel(Complex[] amplitudes, int from, int to, bool steady, bool force)
{
    /// <summary>What the model leaves out, as a share of the largest amplitude: the rest of the mirror image, the mounts' sway, a frequency that goes a little with the amplitude.</summary>
    /// <remarks>Four times as much hid a few kicks in it, which then were in no uncertainty, and made clean decays look three times as doubtful as they are (benchmark command <c>transients</c>).</remarks>
    private const double LeftOut = 5e-4;

    private readonly Complex[] coefficients = new Complex[3];
    private readonly double floor = Floor(amplitudes.AsSpan(from, to - from));

    /// <summary>Gets the index of the first amplitude.</summary>
    public int From => from;

    /// <summary>Gets the number of amplitudes.</summary>
    public int Count => to - from;

    /// <summary>Gets the number of columns.</summary>
    public int Columns => 1 + (steady ? 1 : 0) + (force ? 1 : 0);

    /// <summary>Gets the number of variables: decay and turn of the free vibration a cycle, logarithm of the kicks' variance over the noise's, and decay of the force a cycle.</summary>
    public int Variables => force ? 4 : 3;

    /// <summary>Gets whether the magnet's force dies or builds up over cycles.</summary>
    public bool HasForce => force;

    /// <summary>Gets the amplitudes at the first instant, as last worked out: of the free vibration, the steady motion (or nothing), the force.</summary>
    public ReadOnlySpan<Complex> Coefficients => coefficients;

    /// <summary>Gets the variance of the noise, as last worked out.</summary>
    public double Variance { get; private set; }

    /// <summary>Gives minus the logarithm of the likelihood, but for a constant; infinite outside the possible.</summary>
    public double Unlikely(ReadOnlySpan<double> at)
    {
        var (decay, turn, kicks) = (at[0], at[1], Math.Exp(at[2]));
        if (decay is < 1e-4 or > 2.5 || Math.Abs(turn) > 2.2 || at[2] is < -16 or > 14 || (force && at[3] is < 0.12 or > 4))
        {
            return double.PositiveInfinity;
        }

        var pole = Complex.FromPolarCoordinates(Math.Exp(-decay), turn);
        var (square, dying) = (Math.Exp(-2 * decay), force ? Math.Exp(-at[3]) : 0);
        Span<Complex> column = stackalloc Complex[4];
        Span<Complex> state = stackalloc Complex[4];
        Span<Complex> rest = stackalloc Complex[4];
        Span<Complex> gram = stackalloc Complex[9];
        Span<Complex> right = stackalloc Complex[3];
        var columns = Columns;
        column[..columns].Fill(Complex.One);
        state.Clear();
        gram.Clear();
        right.Clear();
        double variance = 0, squares = 0, logs = 0;
        for (var k = from; k < to; k++)
        {
            column[columns] = amplitudes[k];
            var spread = variance + 1;
            logs += Math.Log(spread);
            var (share, gain) = (1 / spread, variance / spread);
            for (var j = 0; j <= columns; j++)
            {
                rest[j] = column[j] - state[j];
                state[j] = pole * (state[j] + gain * rest[j]);
            }

            for (var j = 0; j < columns; j++)
            {
                var left = share * Complex.Conjugate(rest[j]);
                right[j] += left * rest[columns];
                for (var i = 0; i < columns; i++)
                {
                    gram[j * 3 + i] += left * rest[i];
                }
            }

            squares += share * (rest[columns].Real * rest[columns].Real + rest[columns].Imaginary * rest[columns].Imaginary);
            variance = square * variance / spread + kicks;
            column[0] *= pole;
            if (force)
            {
                column[columns - 1] *= dying;
            }
        }

        Span<Complex> explained = stackalloc Complex[3];
        right.CopyTo(explained);
        if (!Solve(gram, right, columns))
        {
            return double.PositiveInfinity;
        }

        for (var j = 0; j < columns; j++)
        {
            squares -= (Complex.Conjugate(explained[j]) * right[j]).Real;
        }

        right.CopyTo(coefficients);
        Variance = Math.Max(0, squares) / Math.Max(1, Count - columns) + floor;
        return (Count - columns) * Math.Log(Variance) + logs;
    }

    private static double Floor(ReadOnlySpan<Complex> amplitudes)
    {
        var largest = 0.0;
        foreach (var value in amplitudes)
        {
            largest = Math.Max(largest, value.Magnitude);
        }

        return LeftOut * LeftOut * largest * largest + double.Epsilon;
    }

    private static bool Solve(Span<Complex> matrix, Span<Complex> right, int size)
    {
        for (var k = 0; k < size; k++)
        {
            var pivot = matrix[k * 3 + k].Real;
            if (!(pivot > 1e-9))
            {
                return false;
            }

            for (var row = k + 1; row < size; row++)
            {
                var factor = matrix[row * 3 + k] / pivot;
                for (var column = k; column < size; column++)
                {
                    matrix[row * 3 + column] -= factor * matrix[k * 3 + column];
                }

                right[row] -= factor * right[k];
            }
        }

        for (var row = size - 1; row >= 0; row--)
        {
            for (var column = row + 1; column < size; column++)
            {
                right[row] -= matrix[row * 3 + column] * right[column];
            }

            right[row] /= matrix[row * 3 + row].Real;
        }

        return true;
    }
}
