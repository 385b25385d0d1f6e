using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Assessment.Trends;

/// <summary>Average run lengths of two-sided EWMA charts, in readings until the signal.</summary>
/// <remarks>
/// L(u) = 1 + (1/λ) ∫ L(s) f((s − (1 − λ)u)/λ) ds over the limits, solved at Gauss-Legendre nodes (Nyström's method). Source: Crowder 1987.
/// With limits that are exact from the first reading, the density of the charts still running is carried on until the limits stand still.
/// </remarks>
public static class EwmaRunLength
{
    private const double Settled = 1e-10;

    /// <summary>Gives the average run length with limits that stand at their final width from the start.</summary>
    /// <param name="weight">λ, the share of the newest reading, above 0 to 1.</param>
    /// <param name="width">L, the limits in standard deviations of the average.</param>
    /// <param name="law">The law of the readings.</param>
    /// <param name="nodes">Number of nodes.</param>
    public static double FixedLimits(double weight, double width, IncrementLaw law, int nodes = CusumRunLength.UsualNodes)
    {
        var edge = width * Ewma.FinalDeviation(weight);
        var rule = new GaussLegendreRule(-edge, edge, nodes);
        var lengths = Lengths(weight, law, rule);
        return 1 + rule.Abscissas.Select((place, node) => rule.GetWeight(node) * lengths[node] * law.Density(place / weight) / weight).Sum();
    }

    /// <summary>Gives the average run length with limits that are exact from the first reading on.</summary>
    /// <inheritdoc cref="FixedLimits"/>
    public static double ExactLimits(double weight, double width, IncrementLaw law, int nodes = CusumRunLength.UsualNodes)
    {
        var final = width * Ewma.FinalDeviation(weight);
        var rule = new GaussLegendreRule(-1, 1, nodes);
        var places = rule.Abscissas;
        double average = 1, edge = width * weight;
        var density = places.Select(place => law.Density(edge * place / weight) / weight).ToArray();
        for (var reading = 2; final - edge > Settled * final; reading++)
        {
            average += Total(rule, edge, density);
            var next = width * Ewma.DeviationAt(weight, reading);
            density = [.. places.Select(to => Arriving(rule, weight, law, edge, density, next * to))];
            edge = next;
        }

        var lengths = Lengths(weight, law, new(-final, final, nodes));
        return average + Total(rule, edge, [.. density.Select((share, node) => share * lengths[node])]);
    }

    private static double Total(GaussLegendreRule rule, double edge, double[] density)
    {
        double total = 0;
        for (var node = 0; node < density.Length; node++)
        {
            total += edge * rule.GetWeight(node) * density[node];
        }

        return total;
    }

    private static double Arriving(GaussLegendreRule rule, double weight, IncrementLaw law, double edge, double[] density, double place)
    {
        double arriving = 0;
        for (var node = 0; node < density.Length; node++)
        {
            arriving += edge * rule.GetWeight(node) * density[node] * law.Density((place - (1 - weight) * edge * rule.GetAbscissa(node)) / weight) / weight;
        }

        return arriving;
    }

    private static Vector<double> Lengths(double weight, IncrementLaw law, GaussLegendreRule rule)
    {
        var nodes = rule.Order;
        var matrix = Matrix<double>.Build.Dense(nodes, nodes, (row, node) =>
            (row == node ? 1 : 0) - rule.GetWeight(node) * law.Density((rule.GetAbscissa(node) - (1 - weight) * rule.GetAbscissa(row)) / weight) / weight);
        return matrix.Solve(Vector<double>.Build.Dense(nodes, 1));
    }
}
