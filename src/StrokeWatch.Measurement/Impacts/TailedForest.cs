using StrokeWatch.Measurement.Networks;
using StrokeWatch.Measurement.Trees;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// A <see cref="DecisionForest"/> grown on the machine model, whose sum is about the logarithm of how much likelier a blow is than anything that looks like it,
/// and how often machines without strike give such a sum.
/// </summary>
/// <remarks>
/// The benchmark command <c>strike-train</c> grows it and fits the upper tail of the sums that machines without strike give, by classes of sampling rate and of drive frequency. Below <see cref="LowHz"/>, where few orders are left and look-alikes look most alike, forests
/// of their own stand, grown on many more machines, and below <see cref="LowestHz"/> others still, beside which some <see cref="DenseNetwork"/> weigh what has changed: what one of them is wrongly sure of the others mostly are not. In the file: features; tails, and of each the highest rate and drive frequency in Hz for which it holds, the sum at which it begins and the
/// common logarithm of its probability, by how much that falls a unit of the sum above and below, and the sum that strikes reach; forest.
/// </remarks>
internal sealed class TailedForest
{
    /// <summary>Sampling rates in Hz below this one have forests of their own.</summary>
    private const double LowHz = 1800;

    /// <summary>Below this one, where the fewest orders are left, they have others still.</summary>
    private const double LowestHz = 1100;

    /// <summary>What the networks' mean output weighs beside the sum of the trees: on machines kept out, 0.15 to 0.5 let strikes by alike.</summary>
    internal const double NetworkShare = 0.3;

    private static readonly Lazy<TailedForest> GrownOnBlows = new(() => new("strike.forest", BlowFeatures.Count));
    private static readonly Lazy<TailedForest> GrownOnLowBlows = new(() => new("strike-low.forest", BlowFeatures.Count));
    private static readonly Lazy<TailedForest> GrownOnOnsets = new(() => new("onset.forest", OnsetFeatures.WithoutTurn));
    private static readonly Lazy<TailedForest> GrownOnLowOnsets = new(() => new("onset-low.forest", OnsetFeatures.Count));
    private static readonly Lazy<TailedForest> GrownOnLowestBlows = new(() => new("strike-lowest.forest", BlowFeatures.Count));
    private static readonly Lazy<TailedForest> GrownOnLowestOnsets = new(() => new("onset-lowest.forest", OnsetFeatures.Count, "onset-lowest.network"));
    private readonly (double RateHz, double DriveHz, double From, double Log, double Above, double Below, double Least)[] tails;
    private readonly DecisionForest forest;
    private readonly DenseNetwork[] networks = [];

    private TailedForest(string name, int features, string? beside = null)
    {
        ReadOnlySpan<byte> data = Resource(name);
        if (DecisionForest.Int(ref data) != features)
        {
            throw new InvalidDataException($"{name} was grown on other features than these: run the benchmark command strike-train");
        }

        tails = new (double, double, double, double, double, double, double)[DecisionForest.Int(ref data)];
        for (var i = 0; i < tails.Length; i++)
        {
            tails[i] = (DecisionForest.Float(ref data), DecisionForest.Float(ref data), DecisionForest.Float(ref data), DecisionForest.Float(ref data), DecisionForest.Float(ref data),
                DecisionForest.Float(ref data), DecisionForest.Float(ref data));
        }

        forest = DecisionForest.Read(ref data);
        if (beside is null)
        {
            return;
        }

        networks = DenseNetwork.ReadAll(Resource(beside));
        if (networks.Any(network => network.Inputs != features))
        {
            throw new InvalidDataException($"{beside} was trained on other features than these: run the benchmark command strike-train");
        }
    }

    /// <summary>Says whether a sampling rate in Hz has forests of its own.</summary>
    public static bool IsLow(double rateHz) => rateHz < LowHz;

    /// <summary>Says whether a sampling rate in Hz is one of the lowest, where the fewest orders are left.</summary>
    public static bool IsLowest(double rateHz) => rateHz < LowestHz;

    /// <summary>Gives the trees that weigh <see cref="BlowFeatures"/> at a sampling rate in Hz.</summary>
    public static TailedForest Blows(double rateHz) => Choose(rateHz, GrownOnLowestBlows, GrownOnLowBlows, GrownOnBlows);

    /// <summary>Gives the trees that weigh <see cref="OnsetFeatures"/> at a sampling rate in Hz.</summary>
    public static TailedForest Onsets(double rateHz) => Choose(rateHz, GrownOnLowestOnsets, GrownOnLowOnsets, GrownOnOnsets);

    /// <summary>Gives the sum of the trees, and of the networks where there are some: it rises with how much likelier a blow is than all else.</summary>
    public double Sum(ReadOnlySpan<double> numbers)
    {
        var sum = 0.0;
        foreach (var network in networks)
        {
            sum += network.Sum(numbers);
        }

        return forest.Sum(numbers) + (networks.Length == 0 ? 0 : NetworkShare * sum / networks.Length);
    }

    /// <summary>Gives the common logarithm of the probability that a window without strike gives such a sum or a greater one.</summary>
    /// <param name="sum">The sum.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    /// <param name="driveHz">Frequency of the stroke in Hz.</param>
    public double LogFalseAlarm(double sum, double rateHz, double driveHz)
    {
        var (_, _, from, log, above, below, _) = Tail(rateHz, driveHz);
        return Math.Min(0, log - ((sum > from ? above : below) * (sum - from)));
    }

    /// <summary>Says whether a strike of 30 % and more of the magnet's peak pull gives so small a sum with a probability of no more than <see cref="StrikeDetector.MissedEach"/>.</summary>
    /// <param name="sum">The sum.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    /// <param name="driveHz">Frequency of the stroke in Hz.</param>
    public bool RulesOut(double sum, double rateHz, double driveHz) => sum < Tail(rateHz, driveHz).Least;

    private (double RateHz, double DriveHz, double From, double Log, double Above, double Below, double Least) Tail(double rateHz, double driveHz)
    {
        foreach (var tail in tails)
        {
            if (rateHz <= tail.RateHz && driveHz <= tail.DriveHz)
            {
                return tail;
            }
        }

        return tails[^1];
    }

    private static TailedForest Choose(double rateHz, Lazy<TailedForest> lowest, Lazy<TailedForest> low, Lazy<TailedForest> high) => (IsLowest(rateHz) ? lowest : IsLow(rateHz) ? low : high).Value;

    private static byte[] Resource(string name)
    {
        using var stream = typeof(TailedForest).Assembly.GetManifestResourceStream(name)!;
        var data = new byte[stream.Length];
        stream.ReadExactly(data);
        return data;
    }
}
