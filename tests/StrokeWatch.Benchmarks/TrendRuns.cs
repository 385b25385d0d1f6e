using System.Globalization;
using StrokeWatch.Assessment.Trends;

namespace StrokeWatch.Benchmarks;

/// <summary>Seeded readings through the trend watch: how long healthy machines run to a false signal, and how soon and how well changes are found.</summary>
internal static class TrendRuns
{
    /// <summary>A law of readings with mean 0 and standard deviation 1.</summary>
    internal sealed record Law(string Name, Func<Random, double> Next);

    /// <summary>The share of dates that must lie within those stated, in per cent; so many changes of a kind leave 0.8 % of scatter.</summary>
    private const double LeastDated = 93;

    /// <summary>How many readings the watch keeps.</summary>
    private const int MostKept = 512;

    private static readonly DateTimeOffset Begin = new(2026, 3, 1, 6, 0, 0, TimeSpan.Zero);

    public static Law Normal { get; } = new("normal", Gauss);

    private static Law[] HeavyTails { get; } =
    [
        new("Student's t, 5 degrees of freedom", random => Student(random, 5) / Math.Sqrt(5.0 / 3)),
        new("Student's t, 3 degrees of freedom", random => Student(random, 3) / Math.Sqrt(3)),
        new("normal, one reading in 50 ten times as wild, spread that of the others", random => random.NextDouble() < 0.02 ? 10 * Gauss(random) : Gauss(random)),
        new("Laplace", random => Math.CopySign(Math.Log(1 - random.NextDouble()), random.NextDouble() - 0.5) / Math.Sqrt(2)),
    ];

    /// <summary>Prints run lengths beside their designs, then delays, dates and sizes.</summary>
    public static int Run(string[] arguments)
    {
        var runs = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 4000;
        var targets = new Targets();
        foreach (var (runLength, shift) in ((double, double)[])[(200, 1), (1000, 1), (1000, 2)])
        {
            var settings = new TrendSettings { RunLength = runLength, Shift = shift };
            foreach (var readings in (int?[])[null, 100, 30, 15])
            {
                var design = TrendDesign.For(settings, readings);
                var measured = FalseRunLength(design, Normal, runs, 17);
                var name = $"run length, normal, {(readings is { } count ? $"baseline of {count} readings" : "known baseline")}, shift {Say(shift)}, k {Say(design.Allowance)}, h {Say(design.Decision)}";
                targets.AtLeast(name, measured / runLength, 0.9, "of the designed " + Say(runLength));
                targets.Below(name, measured / runLength, 1.1, "of the designed " + Say(runLength));
                foreach (var (size, slope) in ((double, double)[])[(0.5, 0), (1, 0), (1.5, 0), (2, 0), (3, 0), (6, 0), (0, 0.01), (0, 0.05), (0, 0.2)])
                {
                    var (text, dated, kept) = Found(design, size, slope, runs / 4, slope > 0 ? 29 : 23);
                    Console.WriteLine("  " + text);
                    if (kept)
                    {
                        targets.AtLeast("  within its stated dates", dated, LeastDated, "%");
                    }
                }
            }
        }

        var usual = TrendDesign.For(new(), null);
        foreach (var law in HeavyTails)
        {
            var own = FalseRunLength(usual, law, runs / 4, 31);
            var bare = FalseRunLength(usual with { Decision = CusumDesign.For(usual.RunLength, 1).Decision, Level = usual.Level with { Limit = double.PositiveInfinity } }, law, runs / 4, 31);
            Console.WriteLine($"run length, {law.Name}: {Say(own)} readings, without the soft limit {Say(bare)}, designed {Say(usual.RunLength)}");
        }

        return targets.Status;
    }

    /// <summary>Gives readings a false signal: with a known baseline over whole runs, else over five times as many baselines drawn anew, each watched for four run lengths with a fresh watch after each signal: baselines differ more than runs of one do.</summary>
    public static double FalseRunLength(TrendDesign design, Law law, int runs, int seed)
    {
        var random = new Random(seed);
        long taken = 0, signals = 0;
        for (var run = 0; run < (design.Readings is null ? runs : 5 * runs); run++)
        {
            var baseline = Learn(design, law, random);
            var end = design.Readings is null ? long.MaxValue : (long)(4 * design.RunLength);
            var begun = signals;
            var watch = new TrendWatch(design, baseline);
            for (long i = 1; i <= end && (design.Readings is not null || signals == begun); i++)
            {
                Take(watch, Begin.AddHours(i), law.Next(random));
                taken++;
                if (watch.State != TrendState.Steady)
                {
                    signals++;
                    watch = new(design, baseline);
                }
            }
        }

        return signals == 0 ? double.PositiveInfinity : (double)taken / signals;
    }

    /// <summary>Gives what was found of seeded changes after fifty healthy readings, in words, how many dates of a hundred lay within those stated, and whether nine of ten signals came before the watch had let go of the readings before the change.</summary>
    public static (string Text, double Dated, bool Kept) Found(TrendDesign design, double step, double slope, int runs, int seed)
    {
        const int Healthy = 50;
        var random = new Random(seed);
        var delays = new List<double>();
        var errors = new List<double>();
        var sizes = new List<double>();
        int dated = 0, sized = 0, early = 0, never = 0;
        for (var run = 0; run < runs; run++)
        {
            var watch = new TrendWatch(design, Learn(design, Normal, random));
            var day = 0;
            for (; watch.State == TrendState.Steady && day < 10_000; day++)
            {
                Take(watch, Begin.AddDays(day), Gauss(random) + (day < Healthy ? 0 : step + slope * (day - Healthy)));
            }

            if (day <= Healthy || watch.State == TrendState.Steady)
            {
                early += day <= Healthy ? 1 : 0;
                never += day > Healthy ? 1 : 0;
                continue;
            }

            delays.Add(day - Healthy);
            var change = watch.Report().Change!;
            var truth = slope > 0 ? slope * (day - 1 - Healthy) : step;
            errors.Add((change.At - Begin).TotalDays - Healthy);
            sizes.Add(change.Size / truth);
            dated += (change.MayBeOlder || change.Earliest <= Begin.AddDays(Healthy)) && change.Latest >= Begin.AddDays(Healthy) ? 1 : 0;
            sized += Math.Abs(change.Size - truth) <= 2 * change.SizeUncertainty ? 1 : 0;
        }

        delays.Sort();
        errors.Sort();
        sizes.Sort();
        var count = delays.Count;
        var text = $"{(slope > 0 ? $"ramp of {Say(slope)} a reading" : $"step of {Say(step)}")}: signalled after {Say(delays[count / 2])} readings (median; 90 % within {Say(delays[count * 9 / 10])}), " +
            $"date off by {Say(errors[count / 10])} … {Say(errors[count * 9 / 10])} readings (10 % … 90 %), within its stated dates {Say(100.0 * dated / count)} %, " +
            $"size {Say(sizes[count / 2])} of the truth (median), within twice its uncertainty {Say(100.0 * sized / count)} %; {early} signalled before, {never} never";
        return (text, 100.0 * dated / count, delays[count * 9 / 10] < MostKept - Healthy);
    }

    private static TrendBaseline Learn(TrendDesign design, Law law, Random random)
    {
        if (design.Readings is not { } count)
        {
            return new(0, 1, null, 0);
        }

        double mean = 0, squares = 0;
        for (var i = 1; i <= count; i++)
        {
            var value = law.Next(random);
            var off = value - mean;
            mean += off / i;
            squares += off * (value - mean);
        }

        return new(mean, Math.Sqrt(squares / (count - 1)), count, 0);
    }

    private static void Take(TrendWatch watch, DateTimeOffset at, double value)
    {
        if (!watch.TryAdd(at, value, 0))
        {
            throw new InvalidOperationException("the watch refused a reading");
        }
    }

    private static double Gauss(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static double Student(Random random, int freedom)
    {
        var squares = 0.0;
        for (var i = 0; i < freedom; i++)
        {
            var part = Gauss(random);
            squares += part * part;
        }

        return Gauss(random) / Math.Sqrt(squares / freedom);
    }

    private static string Say(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
