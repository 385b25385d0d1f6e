using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Machine.Tuning;

/// <summary>
/// Nonlinear least squares: Levenberg's and Marquardt's steps, each solved by a QR decomposition of the Jacobian with its damping below it.
/// </summary>
/// <remarks>
/// Source: Marquardt, J. SIAM 11 (1963) 431-441; columns scaled after Moré, Lecture Notes in Mathematics 630 (1978) 105-116; damping as in Nielsen, IMM-REP-1999-05 (all from
/// memory). The Jacobian is taken by five-point central differences, exact to the fourth order, so that the solution holds the digits that certified data sets ask for.
/// </remarks>
public static class LeastSquares
{
    private const double SmallestStep = 1e-13;
    private const double Difference = 1e-4;
    private const double LeastScale = 0.1;
    private const double MostDamping = 1e20;
    private const double Nearby = 1e-4;
    private const int Polishes = 40;

    /// <summary>Finds the parameters that make the sum of the squared residuals least, from a start.</summary>
    /// <param name="residuals">Gives the residuals at some parameters: always as many, at least as many as parameters; infinite ones refuse the parameters.</param>
    /// <param name="start">The start; where the residuals are not finite there, nothing is found.</param>
    /// <param name="iterations">Most steps tried.</param>
    public static LeastSquaresResult Fit(Func<double[], double[]> residuals, IReadOnlyList<double> start, int iterations = 2000)
    {
        ArgumentNullException.ThrowIfNull(residuals);
        double[] at = [.. start];
        var found = residuals(at);
        var sum = SumOfSquares(found);
        var jacobian = Jacobian(residuals, at, found.Length);
        var scales = new double[at.Length];
        double damping = 1e-3, factor = 2;
        var (converged, tried) = (false, 0);
        while (tried < iterations && !converged)
        {
            tried++;
            Widen(scales, jacobian);
            var step = Step(jacobian, found, scales, damping);
            double[] next = [.. at.Zip(step, (value, change) => value + change)];
            var small = Enumerable.Range(0, at.Length).All(i => Math.Abs(step[i]) <= SmallestStep * (Math.Abs(at[i]) + SmallestStep));
            var there = residuals(next);
            var better = SumOfSquares(there);
            if (better <= sum)
            {
                var gain = (sum - better) / Math.Max(Predicted(jacobian, found, step, sum), double.Epsilon);
                (at, found) = (next, there);
                converged = small || (better == sum && damping < 1e-6);
                sum = better;
                jacobian = Jacobian(residuals, at, found.Length);
                damping *= Math.Clamp(1 - Math.Pow((2 * gain) - 1, 3), 0.1, 1);
                factor = 2;
            }
            else
            {
                // At the minimum rounding decides which of two neighbours is the better one.
                converged = small || damping > MostDamping;
                (damping, factor) = (damping * factor, factor * 2);
            }
        }

        // So near the minimum the sum is level to rounding; where it lies the derivatives tell, by steps without damping.
        for (var polish = 0; polish < Polishes && converged && double.IsFinite(sum); polish++)
        {
            var step = Step(jacobian, found, scales, 0);
            if (!step.Select((change, i) => Math.Abs(change) <= Nearby * Math.Max(Math.Abs(at[i]), LeastScale)).All(near => near))
            {
                break;
            }

            at = [.. at.Zip(step, (value, change) => value + change)];
            found = residuals(at);
            jacobian = Jacobian(residuals, at, found.Length);
            if (step.Select((change, i) => Math.Abs(change) <= SmallestStep * Math.Max(Math.Abs(at[i]), LeastScale)).All(still => still))
            {
                break;
            }
        }

        return new(at, SumOfSquares(found), found.Length - at.Length, jacobian, tried, converged && double.IsFinite(sum));
    }

    private static double SumOfSquares(double[] residuals)
    {
        var sum = residuals.Sum(r => r * r);
        return double.IsNaN(sum) ? double.PositiveInfinity : sum;
    }

    private static void Widen(double[] scales, double[,] jacobian)
    {
        for (var j = 0; j < scales.Length; j++)
        {
            var norm = 0.0;
            for (var i = 0; i < jacobian.GetLength(0); i++)
            {
                norm += jacobian[i, j] * jacobian[i, j];
            }

            scales[j] = Math.Max(scales[j], Math.Max(Math.Sqrt(norm), 1e-12));
        }
    }

    private static double[] Step(double[,] jacobian, double[] residuals, double[] scales, double damping)
    {
        var (rows, columns) = (jacobian.GetLength(0), jacobian.GetLength(1));
        var stacked = Matrix<double>.Build.Dense(rows + columns, columns, (i, j) => i < rows ? jacobian[i, j] : i - rows == j ? Math.Sqrt(damping) * scales[j] : 0);
        var right = Vector<double>.Build.Dense(rows + columns, i => i < rows ? -residuals[i] : 0);
        return stacked.QR().Solve(right).ToArray();
    }

    private static double Predicted(double[,] jacobian, double[] residuals, double[] step, double sum)
    {
        var left = 0.0;
        for (var i = 0; i < residuals.Length; i++)
        {
            var value = residuals[i];
            for (var j = 0; j < step.Length; j++)
            {
                value += jacobian[i, j] * step[j];
            }

            left += value * value;
        }

        return sum - left;
    }

    private static double[,] Jacobian(Func<double[], double[]> residuals, double[] at, int rows)
    {
        var jacobian = new double[rows, at.Length];
        for (var j = 0; j < at.Length; j++)
        {
            var h = Difference * Math.Max(Math.Abs(at[j]), LeastScale);
            double[] Moved(double by)
            {
                double[] moved = [.. at];
                moved[j] += by;
                return residuals(moved);
            }

            double[] up = Moved(h), down = Moved(-h), up2 = Moved(2 * h), down2 = Moved(-2 * h);
            for (var i = 0; i < rows; i++)
            {
                jacobian[i, j] = ((8 * (up[i] - down[i])) - (up2[i] - down2[i])) / (12 * h);
            }
        }

        return jacobian;
    }
}
