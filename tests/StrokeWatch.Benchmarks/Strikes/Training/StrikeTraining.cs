using System.Globalization;
using StrokeWatch.Benchmarks.Forests;
using StrokeWatch.Measurement.Impacts;

namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>Grows the trees that weigh what a window shows of blows, and those that weigh what has changed, and fits the upper tails of what machines without strike give.</summary>
internal static class StrikeTraining
{
    private const double TailShare = 0.003;
    private const double StruckShare = 0.02;

    /// <summary>Forests of which the sums are averaged where changes are weighed: single ones become sure of single outliers.</summary>
    private const int ForestsOfOnsets = 3;

    /// <summary>Rates in Hz up to which one tail holds: the lower the rate, the more look-alikes look alike.</summary>
    private static readonly float[] RateClasses = [1125, 1425, 1800, 2850, float.PositiveInfinity];

    /// <summary>The same for drive frequencies: at 100 and 120 Hz fewer orders are left.</summary>
    private static readonly float[] DriveClasses = [80, float.PositiveInfinity];

    /// <summary>
    /// Runs: runs of each kind, rate and drive; seeds, by commas, whose windows are put together; the folder for strike.forest and onset.forest; trees; leaves of a tree; step; a folder that keeps
    /// the windows' numbers from run to run.
    /// </summary>
    public static int Run(string[] arguments)
    {
        int Number(int i, int otherwise) => arguments.Length > i ? int.Parse(arguments[i], CultureInfo.InvariantCulture) : otherwise;
        int[] seeds = arguments.Length > 1 ? [.. arguments[1].Split(',').Select(seed => int.Parse(seed, CultureInfo.InvariantCulture))] : [400, 500];
        var (runs, into) = (Number(0, 50), arguments.Length > 2 ? arguments[2] : Path.GetTempPath());
        var (trees, leaves, step) = (Number(3, 150), Number(4, 64), arguments.Length > 5 ? double.Parse(arguments[5], CultureInfo.InvariantCulture) : 0.1);
        var folder = arguments.Length > 6 ? arguments[6] : null;
        var grow = BlowSheet.Together(seeds.Select(seed => BlowSheet.Kept(folder, $"grow-{runs}-{seed}", () => BlowSheet.Fill(runs, 2, seed, _ => true))));
        var quiet = BlowSheet.Together(seeds.Select(seed => BlowSheet.Kept(folder, $"quiet-{runs}-{seed}", () => BlowSheet.Fill(runs + (runs / 2), 1, seed + 1, kind => kind > StudyKind.FaintContact))));
        var strikes = BlowSheet.Kept(folder, $"strikes-{runs}-{seeds[0]}", () => BlowSheet.Fill(Math.Max(2, runs / 2), 1, seeds[0] + 2, kind => kind <= StudyKind.FaintContact));
        Forest(Path.Combine(into, "strike.forest"), grow.Blows, quiet.Blows, strikes.Blows, BlowFeatures.Count, trees, leaves, step, 1);
        Forest(Path.Combine(into, "onset.forest"), grow.Onsets, quiet.Onsets, strikes.Onsets, OnsetFeatures.Count, trees, leaves, step, ForestsOfOnsets);
        return 0;
    }

    private static void Forest(string file, List<BlowRow> rows, List<BlowRow> quiet, List<BlowRow> strikes, int features, int trees, int leaves, double step, int forests)
    {
        Console.WriteLine($"{Path.GetFileName(file)}: {rows.Count} windows to grow on");
        var forest = GrownForest.Grow(
            rows.SelectMany(row => row.Kind <= StudyKind.FaintContact
                ? [new ForestRow { Label = true, Features = row.End }]
                : new[] { new ForestRow { Features = row.End }, new ForestRow { Features = row.OtherEnd } }),
            features,
            trees,
            leaves,
            step,
            forests: forests);
        using var writer = new BinaryWriter(File.Create(file));
        writer.Write(features);
        writer.Write(RateClasses.Length * DriveClasses.Length);
        var lowest = 0f;
        foreach (var rate in RateClasses)
        {
            var slow = 0f;
            foreach (var drive in DriveClasses)
            {
                // Both sets of numbers have the drive's frequency as their last but two.
                var (aboveRate, aboveDrive) = (lowest, slow);
                var threshold = Tail(writer, rate, drive, Sums(quiet));
                var struck = Sums(strikes);
                Least(writer, [.. struck.Where(row => row.Kind < StudyKind.Faint).Select(row => row.Sum)]);
                foreach (var kind in struck.GroupBy(row => row.Kind).OrderBy(kind => kind.Key))
                {
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {StrikeStudy.Words(kind.Key)}: {100.0 * kind.Count(row => row.Sum >= threshold) / kind.Count():0.0} % of {kind.Count()} called"));
                }

                slow = drive;

                List<(StudyKind Kind, int Rate, double Sum)> Sums(List<BlowRow> all) => [.. all.Where(row => row.Rate > aboveRate && row.Rate <= rate && row.End[^3] > aboveDrive && row.End[^3] <= drive)
                    .Select(row => (row.Kind, row.Rate, Sum: Math.Max(forest.Sum(row.End), forest.Sum(row.OtherEnd)))).OrderByDescending(row => row.Sum)];
            }

            lowest = rate;
        }

        forest.Write(writer);
    }

    /// <summary>Fits an exponential to the lower tail of what strikes of 30 % and more give, and writes the sum below which one is ruled out.</summary>
    private static void Least(BinaryWriter writer, List<double> sums)
    {
        sums.Sort();
        var below = Math.Max(15, (int)(StruckShare * sums.Count));
        var (from, deficit) = (sums[below], sums.Take(below).Average(sum => sums[below] - sum));
        var least = from - (deficit * Math.Log(below / (StrikeDetector.MissedEach * sums.Count)));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {sums.Count} windows with strikes of 30 % and more: {below} below {from:0.00}, mean deficit {deficit:0.00}, least {sums[0]:0.00}; ruled out below {least:0.00}"));
        writer.Write((float)least);
    }

    /// <summary>
    /// Fits the upper tail of what machines without strike give, and gives the sum that is called. The tail is a generalised Pareto distribution by probability-weighted moments
    /// (Hosking and Wallis, Technometrics 29, 1987; from memory), its shape between the exponential's and one with an end; written is the straight line in log P to where it reaches the false-alarm probability.
    /// </summary>
    private static double Tail(BinaryWriter writer, float rate, float drive, List<(StudyKind Kind, int Rate, double Sum)> sums)
    {
        foreach (var (kind, at, sum) in sums.Take(4))
        {
            Console.WriteLine($"highest without strike: {StrikeStudy.Words(kind)}, {at} Hz: {sum.ToString("0.00", CultureInfo.InvariantCulture)}");
        }

        var above = Math.Max(40, (int)(TailShare * sums.Count));
        var (from, share) = (sums[above].Sum, above / (double)sums.Count);
        var (mean, weighted) = (0.0, 0.0);
        for (var i = 0; i < above; i++)
        {
            // The largest come first: the share of those above one is its rank over all.
            var excess = sums[i].Sum - from;
            (mean, weighted) = (mean + (excess / above), weighted + (excess * (i + 0.35) / above / above));
        }

        var shape = Math.Clamp(2 - (mean / (mean - (2 * weighted))), -0.4, 0);
        var scale = mean * (1 - shape);
        var times = share / StrikeDetector.FalseAlarmEach;
        var threshold = from + (shape > -1e-3 ? scale * Math.Log(times) : scale / shape * (Math.Pow(times, shape) - 1));
        var slope = Math.Log10(times) / (threshold - from);
        var intercept = Math.Log10(share) + (slope * from);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"up to {rate} Hz, drive to {drive} Hz: {sums.Count} windows without strike: {share:0.0000} of them above {from:0.00}, mean excess {mean:0.00}, shape {shape:0.00}; log10 P = {intercept:0.000} - {slope:0.000} sum; threshold {threshold:0.00}; {sums.Count(row => row.Sum >= threshold)} called"));
        writer.Write(rate);
        writer.Write(drive);
        writer.Write((float)intercept);
        writer.Write((float)slope);
        return threshold;
    }
}
