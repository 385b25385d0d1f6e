using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;

namespace StrokeWatch.Assessment.Trends;

/// <summary>How far a baseline of a few normal readings may be off, and what that does to a chart's false signals.</summary>
/// <remarks>
/// The mean is off by a normal error of variance 1/n, the spread by a χ² one of n − 1 degrees of freedom. The stated run length is one over the rate of false signals,
/// averaged over both: of many features and machines together, one signal in so many readings is false.
/// </remarks>
internal sealed class BaselineDoubt
{
    private const int Grades = 11;
    private const int Nodes = 40;
    private const double Reach = 4.5;

    /// <summary>From this run length on the integral equation, whose nodes are few beside the limited law's edges, is not to be trusted.</summary>
    private const double LongRun = 5000;

    private readonly (double Share, IncrementLaw Law)[] cases;
    private readonly bool chained;

    /// <summary>Sets up the doubt of a baseline.</summary>
    /// <param name="readings">How many readings it was learned from, at least 3; null where it is known.</param>
    /// <param name="limit">The soft limit of a reading.</param>
    /// <param name="runLength">The run length that is asked for.</param>
    public BaselineDoubt(int? readings, double limit, double runLength)
    {
        chained = runLength > LongRun;
        if (readings is not { } count)
        {
            cases = [(1, new(0, 1, limit))];
            return;
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(count, 3);
        var rule = new GaussLegendreRule(-Reach, Reach, Grades);
        var grades = rule.Abscissas.Select((place, node) => (Place: place, Share: rule.GetWeight(node) * Normal.PDF(0, 1, place))).ToArray();
        var all = new List<(double Share, IncrementLaw Law)>();
        foreach (var (place, share) in grades)
        {
            var ratio = Math.Sqrt((count - 1) / ChiSquared.InvCDF(count - 1, Normal.CDF(0, 1, place)));
            all.AddRange(grades.Select(offset => (share * offset.Share, new IncrementLaw(ratio * offset.Place / Math.Sqrt(count), ratio, limit))));
        }

        cases = [.. all];
    }

    /// <summary>Gives the run length of a two-sided chart: one over the mean rate of its false signals.</summary>
    public double RunLength(double allowance, double decision)
    {
        double rate = 0;
        foreach (var (share, law) in cases)
        {
            // The errors of the mean lie evenly to both sides, so that one side told twice is both.
            rate += 2 * share / (chained ? CusumChain.OneSided(allowance, decision, law) : CusumRunLength.OneSided(allowance, decision, law, 0, Nodes));
        }

        return 1 / rate;
    }
}
