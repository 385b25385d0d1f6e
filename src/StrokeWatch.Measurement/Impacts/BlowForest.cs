using StrokeWatch.Measurement.Trees;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// Weighs <see cref="BlowFeatures"/> by a <see cref="DecisionForest"/> grown on the machine model, whose sum is about the logarithm of how much likelier a blow is than
/// anything that looks like it.
/// </summary>
/// <remarks>
/// The benchmark command <c>strike-train</c> grows it and fits the upper tail of the sums that machines without strike give (exponential, as a logarithm
/// of a likelihood ratio has it at most); both are in <c>strike.forest</c>: features; tails, and of each the highest rate in Hz for which it holds, intercept and slope; forest.
/// </remarks>
internal sealed class BlowForest
{
    private static readonly Lazy<BlowForest> Grown = new(() => new(Resource()));
    private readonly (double Rate, double Intercept, double Slope)[] tails;
    private readonly DecisionForest forest;

    private BlowForest(ReadOnlySpan<byte> data)
    {
        if (DecisionForest.Int(ref data) != BlowFeatures.Count)
        {
            throw new InvalidDataException("strike.forest was grown on other features than these: run the benchmark command strike-train");
        }

        tails = new (double, double, double)[DecisionForest.Int(ref data)];
        for (var i = 0; i < tails.Length; i++)
        {
            tails[i] = (DecisionForest.Float(ref data), DecisionForest.Float(ref data), DecisionForest.Float(ref data));
        }

        forest = DecisionForest.Read(ref data);
    }

    /// <summary>Gets the trees that were grown.</summary>
    public static BlowForest Default => Grown.Value;

    /// <summary>Gives the sum of the trees: about the natural logarithm of the likelihood ratio between blows and all else.</summary>
    public double Sum(ReadOnlySpan<double> numbers) => forest.Sum(numbers);

    /// <summary>Gives the common logarithm of the probability that a window without strike gives such a sum or a greater one at a sampling rate in Hz.</summary>
    public double LogFalseAlarm(double sum, double rateHz)
    {
        foreach (var (rate, intercept, slope) in tails)
        {
            if (rateHz <= rate)
            {
                return Math.Min(0, intercept - (slope * sum));
            }
        }

        return 0;
    }

    private static byte[] Resource()
    {
        using var stream = typeof(BlowForest).Assembly.GetManifestResourceStream("strike.forest")!;
        var data = new byte[stream.Length];
        stream.ReadExactly(data);
        return data;
    }
}
