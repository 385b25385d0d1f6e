using System.Globalization;

namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>
/// The upper tail of what machines without strike give in a class of rates and drives: how often a window reaches a sum, as a mean over the kinds of machine, whatever number of
/// windows each was made of and whether or not its windows could be judged and came to be weighed by the trees at all.
/// </summary>
/// <remarks>A generalised Pareto distribution by probability-weighted moments (Hosking and Wallis, Technometrics 29, 1987; from memory), its shape between the exponential's and one with an end.</remarks>
internal sealed class StrikeTail
{
    private const double TailShare = 0.001;

    /// <summary>From here to where the tail begins, log P is another straight line.</summary>
    private const double UsualShare = 0.1;

    private const int Fewest = 40;

    private readonly List<(StudyKind Kind, int Rate, double Sum)> sums;
    private readonly double[] shares;
    private readonly int above;
    private readonly double share, mean, shape, usual;

    /// <summary>Initialises a new instance of the <see cref="StrikeTail"/> class: fits.</summary>
    /// <param name="sums">The windows that were weighed, the greatest sum first.</param>
    /// <param name="windows">How many windows of each kind there were.</param>
    /// <param name="falseAlarm">The probability that the threshold is to have.</param>
    public StrikeTail(List<(StudyKind Kind, int Rate, double Sum)> sums, IReadOnlyDictionary<StudyKind, int> windows, double falseAlarm)
    {
        this.sums = sums;
        shares = [.. sums.Select(row => 1.0 / windows[row.Kind] / windows.Count)];
        while (above < sums.Count - 1 && (above < Fewest || share < TailShare))
        {
            share += shares[above++];
        }

        From = sums[above].Sum;
        double weighted = 0, before = 0;
        for (var i = 0; i < above; i++)
        {
            // The largest come first: the share of those above one is what came before it and half of its own.
            var excess = (sums[i].Sum - From) * shares[i] / share;
            (mean, weighted) = (mean + excess, weighted + (excess * (before + (0.5 * shares[i])) / share));
            before += shares[i];
        }

        shape = Math.Clamp(2 - (mean / (mean - (2 * weighted))), -0.4, 0);
        var scale = mean * (1 - shape);
        var times = Math.Max(share / falseAlarm, 1.5);
        Threshold = From + (shape > -1e-3 ? scale * Math.Log(times) : scale / shape * (Math.Pow(times, shape) - 1));
        Above = Math.Log10(times) / (Threshold - From);
        var (last, all) = (above, share);
        while (last < sums.Count - 1 && all < UsualShare)
        {
            all += shares[last++];
        }

        usual = sums[last].Sum;
        Below = Math.Log10(all / share) / Math.Max(From - usual, 1e-3);
    }

    /// <summary>Gets the sum that a window reaches with the false-alarm probability.</summary>
    public double Threshold { get; }

    /// <summary>Gets the sum at which the tail begins.</summary>
    public double From { get; }

    /// <summary>Gets the common logarithm of its probability.</summary>
    public double Log => Math.Log10(share);

    /// <summary>Gets by how much that falls a unit above, on the straight line to the threshold.</summary>
    public double Above { get; }

    /// <summary>Gets the same below, on that from what is usual.</summary>
    public double Below { get; }

    /// <summary>Gives the share of windows that reach a sum, as a mean over the kinds.</summary>
    public double Called(double threshold) => sums.Select((row, i) => row.Sum >= threshold ? shares[i] : 0).Sum();

    /// <summary>Prints the highest and what was fitted.</summary>
    public void Print()
    {
        foreach (var (kind, at, sum) in sums.Take(4))
        {
            Console.WriteLine($"  highest without strike: {StrikeStudy.Words(kind)}, {at} Hz: {sum.ToString("0.00", CultureInfo.InvariantCulture)}");
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {sums.Count} windows weighed, {above} above {From:0.00}, {share:0.0000} of all, mean excess {mean:0.00}, shape {shape:0.00}; threshold {Threshold:0.00}, usual below {usual:0.00}, called {1e6 * Called(Threshold):0} a million"));
    }
}
