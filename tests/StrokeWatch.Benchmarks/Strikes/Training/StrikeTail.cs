using System.Globalization;

namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>
/// The upper tail of what machines without strike give in a class of rates and drives: how often a window reaches a sum, as a mean over the kinds of machine, whatever number of
/// windows each was made of and whether or not its windows could be judged and came to be weighed by the trees at all.
/// </summary>
internal sealed class StrikeTail
{
    private const double TailShare = 0.001;

    /// <summary>From here to where the tail begins, log P is another straight line.</summary>
    private const double UsualShare = 0.1;

    private const int Fewest = 40;

    private readonly List<(StudyKind Kind, int Rate, double Sum)> sums;
    private readonly double[] shares;

    /// <summary>Initialises a new instance of the <see cref="StrikeTail"/> class.</summary>
    /// <param name="sums">The windows that were weighed, the greatest sum first.</param>
    /// <param name="windows">How many windows of each kind there were.</param>
    public StrikeTail(List<(StudyKind Kind, int Rate, double Sum)> sums, IReadOnlyDictionary<StudyKind, int> windows)
    {
        this.sums = sums;
        shares = [.. sums.Select(row => 1.0 / windows[row.Kind] / windows.Count)];
    }

    /// <summary>
    /// Fits a generalised Pareto distribution by probability-weighted moments (Hosking and Wallis, Technometrics 29, 1987; from memory), its shape between the exponential's and one with an end,
    /// and gives where the tail begins, its log P there, and by how much that falls a unit above, on the straight line to where it reaches the false-alarm probability, and below, on that from what is usual.
    /// </summary>
    public (double Threshold, double From, double Log, double Above, double Below) Fit(double falseAlarm)
    {
        // The largest come first: the share of those above one is what came before it and half of its own.
        var (above, share) = (0, 0.0);
        while (above < sums.Count - 1 && (above < Fewest || share < TailShare))
        {
            share += shares[above++];
        }

        var from = sums[above].Sum;
        var (mean, weighted, so) = (0.0, 0.0, 0.0);
        for (var i = 0; i < above; i++)
        {
            var excess = (sums[i].Sum - from) * shares[i] / share;
            (mean, weighted) = (mean + excess, weighted + (excess * (so + (0.5 * shares[i])) / share));
            so += shares[i];
        }

        var shape = Math.Clamp(2 - (mean / (mean - (2 * weighted))), -0.4, 0);
        var scale = mean * (1 - shape);
        var times = Math.Max(share / falseAlarm, 1.5);
        var threshold = from + (shape > -1e-3 ? scale * Math.Log(times) : scale / shape * (Math.Pow(times, shape) - 1));
        var (usual, all) = (above, share);
        while (usual < sums.Count - 1 && all < UsualShare)
        {
            all += shares[usual++];
        }

        var below = Math.Log10(all / share) / Math.Max(from - sums[usual].Sum, 1e-3);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {sums.Count} windows weighed, {above} above {from:0.00}, {share:0.0000} of all, mean excess {mean:0.00}, shape {shape:0.00}; threshold {threshold:0.00}, {all:0.000} above {sums[usual].Sum:0.00}, called {1e6 * Called(threshold):0} a million"));
        return (threshold, from, Math.Log10(share), Math.Log10(times) / (threshold - from), below);
    }

    /// <summary>Gives the share of windows that reach a sum, as a mean over the kinds.</summary>
    public double Called(double threshold) => sums.Select((row, i) => row.Sum >= threshold ? shares[i] : 0).Sum();

    /// <summary>Prints the highest.</summary>
    public void Print()
    {
        foreach (var (kind, at, sum) in sums.Take(4))
        {
            Console.WriteLine($"  highest without strike: {StrikeStudy.Words(kind)}, {at} Hz: {sum.ToString("0.00", CultureInfo.InvariantCulture)}");
        }
    }
}
