using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Assessment.Trends;

/// <summary>Average run lengths of one-sided CUSUM charts by a Markov chain: less exact than the integral equation, but never absurd, however long the run and however narrow or limited the law.</summary>
/// <remarks>Source: Brook and Evans, Biometrika 59 (1972) 539-549, from memory: the sums in steps of 2h/(2m − 1), the lowest half as wide.</remarks>
internal static class CusumChain
{
    private const int States = 60;

    /// <summary>A longer run is lost in the rounding of its own equations.</summary>
    private const double Never = 1e12;

    /// <summary>Gives the average run length from a sum of zero; infinite where it is lost in rounding.</summary>
    /// <param name="allowance">k, what is taken off each reading, in standard deviations.</param>
    /// <param name="decision">h, the sum that signals, above 0, in standard deviations.</param>
    /// <param name="law">The law of the readings.</param>
    public static double OneSided(double allowance, double decision, IncrementLaw law)
    {
        var step = 2 * decision / (2 * States - 1);
        var below = new double[2 * States];
        for (var i = 0; i < below.Length; i++)
        {
            below[i] = law.Below(allowance + ((i - States + 0.5) * step));
        }

        var matrix = Matrix<double>.Build.Dense(States, States, (from, to) =>
        {
            var upper = below[to - from + States];
            return (from == to ? 1 : 0) - (to == 0 ? upper : upper - below[to - from + States - 1]);
        });
        var length = matrix.Solve(Vector<double>.Build.Dense(States, 1))[0];
        return length is >= 1 and < Never ? length : double.PositiveInfinity;
    }
}
