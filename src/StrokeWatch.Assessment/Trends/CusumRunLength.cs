using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Assessment.Trends;

/// <summary>Average run lengths of tabular CUSUM charts, in readings until the signal.</summary>
/// <remarks>
/// The integral equation L(u) = 1 + L(0) F(k − u) + ∫₀ʰ L(s) f(s + k − u) ds, solved at Gauss-Legendre nodes (Nyström's method).
/// Sources: Page 1954; Lucas and Crosier 1982 for two sides and the fast initial response.
/// </remarks>
public static class CusumRunLength
{
    /// <summary>The nodes that give eight digits of the published tables.</summary>
    public const int UsualNodes = 80;

    /// <summary>Gives the average run length of the chart that looks for a rise.</summary>
    /// <param name="allowance">k, what is taken off each reading, in standard deviations.</param>
    /// <param name="decision">h, the sum that signals, above 0, in standard deviations.</param>
    /// <param name="law">The law of the readings.</param>
    /// <param name="headStart">What the sum begins at, from 0 to below h.</param>
    /// <param name="nodes">Number of nodes; more for a longer range of sums.</param>
    public static double OneSided(double allowance, double decision, IncrementLaw law, double headStart = 0, int nodes = UsualNodes)
    {
        var (zero, started) = Solve(allowance, decision, law, headStart, nodes);
        return headStart > 0 ? started : zero;
    }

    /// <summary>Gives the average run length of the chart that looks both ways.</summary>
    /// <inheritdoc cref="OneSided"/>
    public static double TwoSided(double allowance, double decision, IncrementLaw law, double headStart = 0, int nodes = UsualNodes)
    {
        var (rise, startedRise) = Solve(allowance, decision, law, headStart, nodes);
        var (fall, startedFall) = Solve(allowance, decision, law.Mirrored(), headStart, nodes);
        return (startedRise * fall + startedFall * rise - rise * fall) / (rise + fall);
    }

    /// <summary>Gives Siegmund's approximation to the average run length of the chart that looks for a rise, at a shift of normal readings.</summary>
    /// <remarks>Source: Siegmund 1985, as Montgomery gives it: (exp(−2Δb) + 2Δb − 1) / (2Δ²), b = h + 1.166.</remarks>
    public static double Siegmund(double allowance, double decision, double shift)
    {
        var drift = shift - allowance;
        var reach = decision + 1.166;
        var product = 2 * drift * reach;
        return Math.Abs(product) < 1e-6 ? reach * reach : (Math.Exp(-product) + product - 1) / (2 * drift * drift);
    }

    private static (double Zero, double Started) Solve(double allowance, double decision, IncrementLaw law, double headStart, int nodes)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(decision);
        ArgumentOutOfRangeException.ThrowIfNegative(headStart);
        var rule = new GaussLegendreRule(0, decision, nodes);
        var starts = rule.Abscissas.Prepend(0).ToArray();
        var matrix = Matrix<double>.Build.Dense(nodes + 1, nodes + 1);
        for (var row = 0; row <= nodes; row++)
        {
            matrix[row, 0] = -law.Below(allowance - starts[row]);
            for (var node = 0; node < nodes; node++)
            {
                matrix[row, node + 1] = -rule.GetWeight(node) * law.Density(rule.GetAbscissa(node) + allowance - starts[row]);
            }

            matrix[row, row] += 1;
        }

        var lengths = matrix.Solve(Vector<double>.Build.Dense(nodes + 1, 1));
        if (headStart <= 0)
        {
            return (lengths[0], lengths[0]);
        }

        var started = 1 + lengths[0] * law.Below(allowance - headStart);
        for (var node = 0; node < nodes; node++)
        {
            started += rule.GetWeight(node) * lengths[node + 1] * law.Density(rule.GetAbscissa(node) + allowance - headStart);
        }

        return (lengths[0], started);
    }
}
