using System.Text;
using StrokeWatch.Measurement.Trees;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>
/// One forest for each cause and one for health, grown on simulated lives of random feeders: they know how symptoms go together, which <see cref="Likelihood"/> takes as independent.
/// </summary>
/// <remarks>
/// The benchmark command <c>cause-train</c> grows them and writes <c>causes.forest</c>: names of the numbers (symptoms and causes), temperature and lead of health, then a name and a forest
/// each. Symptoms that were not grown on are weighed by <see cref="Likelihood"/> beside them.
/// </remarks>
internal sealed class CauseForests
{
    /// <summary>The name of health.</summary>
    public const string Healthy = "healthy";

    /// <summary>Stands for a symptom that is missing.</summary>
    private const double Missing = -99;

    private const double Farthest = 60;

    /// <summary>The most healthy and present captures of the histories that were grown on.</summary>
    private const int MostHealthy = 4, MostPresent = 2;

    /// <summary>The standard deviation of a difference, in spreads of a capture, of those histories: two captures weighed 1 to 2 against four.</summary>
    private static readonly double GrownScale = Math.Sqrt((5.0 / 9) + (1.0 / MostHealthy));

    private static readonly Lazy<CauseForests> Grown = new(() => new(Resource()));
    private readonly string[] numbers;
    private readonly double temperature, lead;
    private readonly Dictionary<string, DecisionForest> forests = new(StringComparer.Ordinal);

    private CauseForests(ReadOnlySpan<byte> data)
    {
        numbers = new string[DecisionForest.Int(ref data)];
        for (var i = 0; i < numbers.Length; i++)
        {
            numbers[i] = Name(ref data);
        }

        (temperature, lead) = (DecisionForest.Float(ref data), DecisionForest.Float(ref data));
        for (var left = DecisionForest.Int(ref data); left > 0; left--)
        {
            var name = Name(ref data);
            forests[name] = DecisionForest.Read(ref data);
        }
    }

    /// <summary>Gets the forests that were grown.</summary>
    public static CauseForests Default => Grown.Value;

    /// <summary>Gets the names of the numbers that evidence gives: symptoms, then causes.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. Symptoms.All.Select(symptom => symptom.Id), .. CauseTable.All.Select(cause => cause.Id)];

    /// <summary>Says whether a symptom was grown on.</summary>
    public bool Knows(string symptom) => Array.IndexOf(numbers, symptom) >= 0;

    /// <summary>Gives the logarithm of the weight of a cause, or of health; null where it was not grown on.</summary>
    /// <param name="name">A cause's id, or <see cref="Healthy"/>.</param>
    /// <param name="values">What <see cref="Values"/> gives.</param>
    public double? Log(string name, ReadOnlySpan<double> values) => forests.TryGetValue(name, out var forest)
        ? (forest.Sum(values) / temperature) + (name == Healthy ? lead : 0)
        : null;

    /// <summary>Gives the numbers that the forests were grown on.</summary>
    public double[] Values(Evidence evidence, IReadOnlyDictionary<string, double> logs) => [.. numbers.Select(name => Value(name, evidence, logs))];

    /// <summary>Gives evidence of more captures as the same differences would look in as few as were grown on; that of few as it is.</summary>
    public static Evidence AsGrown(Evidence evidence) => evidence.HealthyCaptures <= MostHealthy && evidence.Captures <= MostPresent
        ? evidence
        : evidence with
        {
            Readings = [.. evidence.Readings.Select(reading => reading.Symptom.Healthy is null && reading.Spread > 0
                ? reading with { Deviation = reading.Symptom.Apart(reading.Now, reading.Healthy) / (reading.Spread * GrownScale) }
                : reading)],
        };

    /// <summary>Gives a number of evidence: a symptom's deviation, or a cause's logarithm by Bayes' rule.</summary>
    /// <param name="name">A symptom's or a cause's id.</param>
    /// <param name="evidence">The evidence.</param>
    /// <param name="logs">The logarithms of the causes' likelihoods against health.</param>
    public static double Value(string name, Evidence evidence, IReadOnlyDictionary<string, double> logs) => logs.TryGetValue(name, out var log)
        ? Math.Clamp(log, -Farthest, Farthest)
        : evidence[name] is { } reading ? Math.Clamp(reading.Deviation, -Farthest, Farthest) : Missing;

    private static string Name(ref ReadOnlySpan<byte> data)
    {
        var length = data[0];
        var name = Encoding.ASCII.GetString(data.Slice(1, length));
        data = data[(1 + length)..];
        return name;
    }

    private static byte[] Resource()
    {
        using var stream = typeof(CauseForests).Assembly.GetManifestResourceStream("causes.forest")!;
        var data = new byte[stream.Length];
        stream.ReadExactly(data);
        return data;
    }
}
