using System.Globalization;
using StrokeWatch.Benchmarks.Forests;
using StrokeWatch.Benchmarks.Networks;
using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Networks;
using StrokeWatch.Measurement.Trees;

namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>Grows the trees that weigh what a window shows of blows, and those that weigh what has changed, and fits the upper tails of what machines without strike give.</summary>
internal static class StrikeTraining
{
    private const double StruckShare = 0.02;

    /// <summary>What a faint strike weighs in the training of a network beside one of 30 % and more, of which fewer may be missed.</summary>
    private const float FaintWeight = 0.2f;

    /// <summary>So many networks are trained from other first weights, and their outputs averaged.</summary>
    private const int Networks = 2;

    private static readonly int[] Hidden = [256, 128, 64];

    /// <summary>
    /// The rates in Hz at which forests are grown; the lower they are, the more look-alikes look alike, the more machines there must be, and the fewer rates one tail holds for. Trees, leaves and step where none are given; forests of which
    /// the sums are averaged where changes are weighed: single ones become sure of single outliers.
    /// </summary>
    private static readonly (string Name, int[] Rates, float[] Classes, int Trees, int Leaves, double Step, int Forests)[] Groups =
    [
        ("-lowest", [1000], [float.PositiveInfinity], 1500, 31, 0.05, 2),
        ("-low", [1000, 1250, 1600], [1125, 1425, float.PositiveInfinity], 300, 64, 0.1, 2),
        ("", [2000, 2500, 3200, 4000, 5000, 6400], [2850, float.PositiveInfinity], 150, 64, 0.1, 3),
    ];

    /// <summary>Drive frequencies in Hz up to which one tail holds: at 100 and 120 Hz fewer orders are left.</summary>
    private static readonly float[] DriveClasses = [80, float.PositiveInfinity];

    /// <summary>
    /// Group: lowest (below 1.1 kHz), low (below 1.8 kHz) or high; runs of each kind, rate and drive; seeds, by commas, whose windows are put together, those of the first three to fit the tails and, where rates are low, to grow the trees of changes on what is hard, where they are lowest those of all, and where they are high those of the first two to grow on; the folder for the forests; trees, 0 to keep those that are there and
    /// fit their tails anew, -1 to make nothing but the windows' numbers; leaves of a tree; step; a folder that keeps the windows' numbers from run to run, otherwise sheets in that of the forests.
    /// </summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 4 || arguments[0] is not ("lowest" or "low" or "high"))
        {
            Console.Error.WriteLine("usage: strike-train lowest|low|high RUNS SEED,SEED FOLDER [TREES [LEAVES [STEP [SHEETS]]]]");
            return 2;
        }

        int Number(int i, int otherwise) => arguments.Length > i ? int.Parse(arguments[i], CultureInfo.InvariantCulture) : otherwise;
        var (group, rates, classes, usualTrees, usualLeaves, usualStep, forestsOfOnsets) = Groups[arguments[0] switch { "lowest" => 0, "low" => 1, _ => 2 }];
        var (low, lowest) = (group.Length > 0, group == "-lowest");
        int[] seeds = [.. arguments[2].Split(',').Select(seed => int.Parse(seed, CultureInfo.InvariantCulture))];
        var (runs, into) = (int.Parse(arguments[1], CultureInfo.InvariantCulture), arguments[3]);
        var (trees, leaves, step) = (Number(4, usualTrees), Number(5, usualLeaves), arguments.Length > 6 ? double.Parse(arguments[6], CultureInfo.InvariantCulture) : usualStep);
        var folder = Directory.CreateDirectory(arguments.Length > 7 ? arguments[7] : Path.Combine(into, "sheets")).FullName;
        var onsetNumbers = low ? OnsetFeatures.Count : OnsetFeatures.WithoutTurn;
        if (trees < 0)
        {
            Quiet(false);
            Strikes(false);
            Grow(false);
            return 0;
        }

        foreach (var (name, of, features, forests) in new (string, Func<BlowSheet, List<BlowRow>>, int, int)[] { ("strike", sheet => sheet.Blows, BlowFeatures.Count, 1), ("onset", sheet => sheet.Onsets, onsetNumbers, forestsOfOnsets) })
        {
            // Sheets are read anew for each forest: only the rows that it needs are in memory.
            var onsets = name == "onset";
            var file = Path.Combine(into, name + group + ".forest");
            var (sum, write) = trees == 0 ? Standing(file) : Grown(of(Grow(onsets)), features, trees, leaves, step, forests);
            if (lowest && onsets)
            {
                sum = WithNetworks(sum, Path.ChangeExtension(file, ".network"), trees == 0, features, () => of(Grow(onsets)));
            }

            var quiet = Quiet(onsets);
            Forest(file, features, classes, of(quiet), quiet.Windows, of(Strikes(onsets)), sum, write);
        }

        return 0;

        BlowSheet Quiet(bool onsets) => BlowSheet.Together([Sheets(onsets, "quiet", seeds[..Math.Min(3, seeds.Length)], kind => kind > StudyKind.FaintContact ? 1.5 * Times(kind, low) : 0, 1, 1), Sheets(onsets, "tails", seeds[..1], kind => Tails(kind, low), 1, 4)]);

        BlowSheet Strikes(bool onsets) => Sheets(onsets, "strikes", seeds[..1], kind => kind <= StudyKind.FaintContact ? 0.5 * Times(kind, low) : 0, 1, 2);

        BlowSheet Grow(bool onsets) => BlowSheet.Together(
            [Sheets(onsets, "grow", low ? seeds : seeds[..Math.Min(2, seeds.Length)], kind => Times(kind, low), low ? 1 : 2, 0), Sheets(onsets, "hard", seeds[..(lowest ? seeds.Length : low && onsets ? Math.Min(3, seeds.Length) : 1)], kind => Hard(kind, low, lowest), 1, 3)]);

        BlowSheet Sheets(bool onsets, string name, int[] of, Func<StudyKind, double> times, int oneOf, int off)
        {
            var sheet = BlowSheet.Together(of.Select(seed => BlowSheet.Kept(folder, $"{name}{group}-{runs}-{seed}", onsets, () => BlowSheet.Fill(rates, kind => (int)Math.Ceiling(times(kind) * runs), oneOf, seed + off))));
            return low ? sheet.WithTurn(forget: name is "grow" or "hard") : sheet;
        }
    }

    /// <summary>
    /// Gives how many times as many runs are made of kinds that are hard to tell, and of those of which many runs come to nothing: a sensor that clips is mostly not judged at all. Where there are many runs anyway,
    /// those of a gap too small are fewer: one of them takes as long as ten others.
    /// </summary>
    private static double Times(StudyKind kind, bool low) => kind switch
    {
        StudyKind.StrikeContact or StudyKind.FaintContact => low ? 2 : 3,
        StudyKind.Clipped => low ? 2 : 3,
        StudyKind.Rub or StudyKind.PhaseCut => low ? 3 : 2,
        StudyKind.Rattle or StudyKind.Neighbour => 2,
        _ => 1,
    };

    /// <summary>
    /// Gives how many more runs there are of what is mistaken for one another: below 1.8 kHz 49 of the 60 sums nearest to a strike's were of trays that rub, and four in five of the strikes missed of a gap too
    /// small; and of sensors that clip only the few are judged of which the flat tops are not seen. At 1 kHz a blow in every cycle is hard to tell as well.
    /// </summary>
    private static double Hard(StudyKind kind, bool low, bool lowest) => kind switch
    {
        StudyKind.Strike or StudyKind.Faint when lowest => 4,
        StudyKind.Clipped => low ? 16 : 10,
        StudyKind.Rub => low ? 16 : 10,
        StudyKind.StrikeContact or StudyKind.FaintContact when low => 8,
        StudyKind.PhaseCut => low ? 4 : 6,
        _ => 0,
    };

    /// <summary>
    /// Gives how many more runs the tails are fitted to of what nearly all of the highest sums are of: windows of one run come together, so that what stands above a threshold is of a few machines only. How many runs there are of a
    /// kind does not weigh, <see cref="StrikeTail"/> takes kinds as equals.
    /// </summary>
    private static double Tails(StudyKind kind, bool low) => kind switch
    {
        StudyKind.Rub => 20,
        StudyKind.Clipped when low => 8,
        StudyKind.PhaseCut when !low => 10,
        _ => 0,
    };

    private static (Func<float[], double> Sum, Action<BinaryWriter> Write) Grown(List<BlowRow> rows, int features, int trees, int leaves, double step, int forests)
    {
        Console.WriteLine($"{rows.Count} windows to grow on");
        var forest = GrownForest.GrowHeldBack(
            rows.SelectMany(row => row.Kind <= StudyKind.FaintContact
                ? [new ForestRow { Label = true, Features = row.End }]
                : new[] { new ForestRow { Features = row.End }, new ForestRow { Features = row.OtherEnd } }),
            features,
            trees,
            leaves,
            step,
            forests);
        return (forest.Sum, forest.Write);
    }

    private static (Func<float[], double> Sum, Action<BinaryWriter> Write) Standing(string file)
    {
        var whole = File.ReadAllBytes(file);
        var trees = whole.AsMemory(8 + (28 * BitConverter.ToInt32(whole, 4)));
        ReadOnlySpan<byte> data = trees.Span;
        var forest = DecisionForest.Read(ref data);
        var wide = new double[OnsetFeatures.Count];
        return (Sum, writer => writer.Write(trees.Span));

        double Sum(float[] numbers)
        {
            for (var i = 0; i < numbers.Length; i++)
            {
                wide[i] = numbers[i];
            }

            return forest.Sum(wide.AsSpan(0, numbers.Length));
        }
    }

    /// <summary>Trains networks beside the trees, or takes those that are there, and gives the sum of all.</summary>
    private static Func<float[], double> WithNetworks(Func<float[], double> sum, string file, bool keep, int features, Func<List<BlowRow>> rows)
    {
        if (!keep || !File.Exists(file))
        {
            List<NetworkRow> all =
            [
                .. rows().SelectMany(row => row.Kind <= StudyKind.FaintContact
                    ? [new NetworkRow(row.End, true, row.Kind < StudyKind.Faint ? 1 : FaintWeight)]
                    : new[] { new NetworkRow(row.End, false, 1), new NetworkRow(row.OtherEnd, false, 1) }),
            ];
            using var writer = new BinaryWriter(File.Create(file));
            for (var seed = 1; seed <= Networks; seed++)
            {
                TrainedNetwork.Train(all, features, Hidden, passes: 6, step: 1.5e-3, seed).Write(writer);
            }
        }

        var beside = DenseNetwork.ReadAll(File.ReadAllBytes(file));
        return numbers =>
        {
            var wide = Array.ConvertAll(numbers, value => (double)value);
            return sum(numbers) + (TailedForest.NetworkShare * beside.Average(network => network.Sum(wide)));
        };
    }

    private static void Forest(
        string file, int features, float[] classes, List<BlowRow> quiet, Dictionary<(StudyKind Kind, int Rate, int Hertz), int> windows, List<BlowRow> strikes, Func<float[], double> sum, Action<BinaryWriter> write)
    {
        // Both sets of numbers have the drive's frequency as their last but two, those of changes before what follows from the others.
        var driveAt = Math.Min(features, OnsetFeatures.WithoutTurn) - 3;
        List<(StudyKind Kind, int Rate, float Hertz, double Sum)> Summed(List<BlowRow> rows) =>
            [.. rows.Select(row => (row.Kind, row.Rate, Hertz: row.End[driveAt], Sum: Math.Max(sum(row.End), sum(row.OtherEnd)))).OrderByDescending(row => row.Sum)];

        var (without, struckAll) = (Summed(quiet), Summed(strikes));
        using var writer = new BinaryWriter(File.Create(file));
        writer.Write(features);
        writer.Write(classes.Length * DriveClasses.Length);
        var lowest = 0f;
        foreach (var rate in classes)
        {
            var slow = 0f;
            foreach (var drive in DriveClasses)
            {
                bool In(int at, float hertz) => at > lowest && at <= rate && hertz > slow && hertz <= drive;
                List<(StudyKind Kind, int Rate, double Sum)> Sums(List<(StudyKind Kind, int Rate, float Hertz, double Sum)> all) => [.. all.Where(row => In(row.Rate, row.Hertz)).Select(row => (row.Kind, row.Rate, row.Sum))];
                var tail = new StrikeTail(Sums(without), windows.Where(cell => In(cell.Key.Rate, cell.Key.Hertz)).GroupBy(cell => cell.Key.Kind).ToDictionary(kind => kind.Key, kind => kind.Sum(cell => cell.Value)), StrikeDetector.FalseAlarmOfAll);
                Console.WriteLine($"up to {rate} Hz, drive to {drive} Hz");
                tail.Print();
                foreach (var number in new[] { rate, drive, tail.From, tail.Log, tail.Above, tail.Below })
                {
                    writer.Write((float)number);
                }

                var struck = Sums(struckAll);
                Least(writer, [.. struck.Where(row => row.Kind < StudyKind.Faint).Select(row => row.Sum)]);
                foreach (var kind in struck.GroupBy(row => row.Kind).OrderBy(kind => kind.Key))
                {
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {StrikeStudy.Words(kind.Key)}: {100.0 * kind.Count(row => row.Sum >= tail.Threshold) / kind.Count():0.0} % of {kind.Count()} called"));
                }

                slow = drive;
            }

            lowest = rate;
        }

        write(writer);
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
}
