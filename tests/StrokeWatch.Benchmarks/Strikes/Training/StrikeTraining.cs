using System.Globalization;
using StrokeWatch.Benchmarks.Forests;
using StrokeWatch.Measurement.Impacts;

namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>Grows the trees that weigh what a window shows of blows, and fits the upper tail of what machines without strike give.</summary>
internal static class StrikeTraining
{
    private const double TailShare = 0.0015;

    /// <summary>Rates in Hz up to which one tail holds: the lower the rate, the more look-alikes look alike.</summary>
    private static readonly int[] RateClasses = [1125, 1425, 1800, 2850, int.MaxValue];

    /// <summary>Runs: runs of each kind, rate and drive; seed; file; trees; leaves of a tree; step; a folder that keeps the windows' numbers from run to run.</summary>
    public static int Run(string[] arguments)
    {
        int Number(int i, int otherwise) => arguments.Length > i ? int.Parse(arguments[i], CultureInfo.InvariantCulture) : otherwise;
        var (runs, seed, file) = (Number(0, 80), Number(1, 100), arguments.Length > 2 ? arguments[2] : Path.Combine(Path.GetTempPath(), "strike.forest"));
        var folder = arguments.Length > 6 ? arguments[6] : null;
        var rows = BlowSheet.Kept(folder, $"grow-{runs}-{seed}", () => BlowSheet.Fill(runs, 3, seed, _ => true));
        Console.WriteLine($"{rows.Count} windows to grow on");
        var forest = Grow(rows, Number(3, 400), Number(4, 20), arguments.Length > 5 ? double.Parse(arguments[5], CultureInfo.InvariantCulture) : 0.1);
        var quiet = BlowSheet.Kept(folder, $"quiet-{runs}-{seed}", () => BlowSheet.Fill(Math.Max(2, runs / 2), 100, seed + 1, kind => kind > StudyKind.FaintContact));
        using var writer = new BinaryWriter(File.Create(file));
        writer.Write(BlowFeatures.Count);
        writer.Write(RateClasses.Length);
        for (var i = 0; i < RateClasses.Length; i++)
        {
            var from = i == 0 ? 0 : RateClasses[i - 1];
            var sums = quiet.Where(row => row.Rate > from && row.Rate <= RateClasses[i])
                .Select(row => (row.Kind, row.Rate, Sum: Math.Max(forest.Sum(row.End), forest.Sum(row.OtherEnd)))).OrderByDescending(row => row.Sum).ToList();
            Tail(writer, RateClasses[i], sums);
        }

        forest.Write(writer);
        return 0;
    }

    /// <summary>Fits an exponential to the upper tail of what machines without strike give.</summary>
    private static void Tail(BinaryWriter writer, int rate, List<(StudyKind Kind, int Rate, double Sum)> sums)
    {
        foreach (var (kind, at, sum) in sums.Take(5))
        {
            Console.WriteLine($"highest without strike: {StrikeStudy.Words(kind)}, {at} Hz: {sum.ToString("0.00", CultureInfo.InvariantCulture)}");
        }

        var above = Math.Max(20, (int)(TailShare * sums.Count));
        var share = above / (double)sums.Count;
        var (from, excess) = (sums[above].Sum, sums.Take(above).Average(row => row.Sum - sums[above].Sum));
        var slope = 1 / (excess * Math.Log(10));
        var intercept = Math.Log10(share) + (slope * from);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"up to {rate} Hz: {sums.Count} windows without strike: {share:0.0000} of them above {from:0.00}, mean excess {excess:0.00}; log10 P = {intercept:0.000} - {slope:0.000} sum; threshold {(intercept - Math.Log10(StrikeDetector.FalseAlarm)) / slope:0.00}"));
        writer.Write((float)rate);
        writer.Write((float)intercept);
        writer.Write((float)slope);
    }

    private static GrownForest Grow(List<(StudyKind Kind, int Rate, float[] End, float[] OtherEnd)> rows, int trees, int leaves, double step)
    {
        var examples = rows.SelectMany(row => row.Kind <= StudyKind.FaintContact
            ? [new ForestRow { Label = true, Features = row.End }]
            : new[] { new ForestRow { Features = row.End }, new ForestRow { Features = row.OtherEnd } });
        return GrownForest.Grow(examples, BlowFeatures.Count, trees, leaves, step);
    }
}
