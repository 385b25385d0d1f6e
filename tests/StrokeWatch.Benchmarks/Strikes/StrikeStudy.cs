using System.Collections.Concurrent;
using System.Globalization;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>Windows with strikes and windows that look like it, through the meter: how many are called, by kind, rate and drive.</summary>
internal static class StrikeStudy
{
    /// <summary>What is wanted: strikes of 30 % and more called, fainter ones called, and windows without strike called at most.</summary>
    public const double Detected = 0.999, DetectedFaint = 0.95, FalseCalls = 1.0 / 20000;

    private static readonly int[] Rates = [1000, 1600, 3200, 6400];
    private static readonly (int Supply, int Strokes)[] Drives = [(50, 1), (60, 1), (50, 2), (60, 2)];

    /// <summary>Runs the study: windows a kind, a sixteenth of them at each rate and drive, seed, file for the picture, rates in Hz by commas where only some are wanted; prints tables and gives 1 where a target is missed.</summary>
    public static int Run(string[] arguments)
    {
        var windows = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 20000;
        var seed = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 1;
        var picture = arguments.Length > 2 ? arguments[2] : Path.Combine(Path.GetTempPath(), "strike-study.svg");
        int[] rates = arguments.Length > 3 ? [.. arguments[3].Split(',').Select(rate => int.Parse(rate, CultureInfo.InvariantCulture))] : Rates;
        var tallies = new Dictionary<(StudyKind Kind, int Rate, int Hertz), StudyTally>();
        Console.WriteLine($"`strike-study {windows} {seed}`: windows called in per cent (of those, could not be judged)\n");
        Console.WriteLine("| kind | windows |" + string.Concat(rates.SelectMany(rate => Drives.Select(drive => $" {rate / 1000.0:0.0} kHz, {drive.Supply * drive.Strokes} Hz |"))));
        Console.WriteLine("|---|---|" + string.Concat(Enumerable.Repeat("---|", rates.Length * Drives.Length)));
        foreach (var kind in Enum.GetValues<StudyKind>())
        {
            var cells = (from rate in rates from drive in Drives select (rate, drive)).ToList();
            var done = new StudyTally[cells.Count];
            Parallel.ForEach(Partitioner.Create(Enumerable.Range(0, cells.Count), EnumerablePartitionerOptions.NoBuffering), new() { MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
                done[i] = Windows(kind, cells[i].drive.Supply, cells[i].drive.Strokes, cells[i].rate, (windows + 15) / 16, seed));
            for (var i = 0; i < cells.Count; i++)
            {
                tallies[(kind, cells[i].rate, cells[i].drive.Supply * cells[i].drive.Strokes)] = done[i];
            }

            Console.WriteLine($"| {Words(kind)} | {Sum(tallies, other => other == kind).Windows} |" + string.Concat(done.Select(Cell)));
        }

        RocPicture.Write(picture, tallies, $"strike-study {windows} {seed}");
        Console.WriteLine($"\nROC: {picture}");
        return Judge(tallies, rates);
    }

    /// <summary>Makes windows of one kind at one rate and drive and gives their scores.</summary>
    public static StudyTally Windows(StudyKind kind, int supply, int strokes, int rate, int windows, int seed)
    {
        var space = new StudyWorkspace();
        var tally = new StudyTally();
        for (var run = 0; tally.Windows < windows; run++)
        {
            var made = new StudyRun(kind, supply, strokes, rate, Hash(seed, (int)kind, rate, supply * strokes, run), space);
            foreach (var reading in double.IsInfinity(made.From) ? [] : Measure(made, supply * strokes, rate))
            {
                if (made.Counts(reading.StartSeconds, reading.StartSeconds + reading.LengthSeconds) && tally.Windows < windows)
                {
                    tally.Take(reading.StrikeScore, reading.StrikePossible);
                }
            }
        }

        return tally;
    }

    /// <summary>Measures a run as the program would, from a time in seconds on.</summary>
    public static IReadOnlyList<WindowReading> Measure(StudyRun run, double nominal, int rate, IBlowListener? listener = null, Action<WindowReading>? each = null, double from = StudyRun.Skipped)
    {
        var skipped = (int)(from * rate);
        var count = run.Axes[0].Length - skipped;
        var block = new SampleBlock(3, count) { RateHz = rate, FullScale = run.FullScale, StartSeconds = (double)skipped / rate };
        for (var axis = 0; axis < 3; axis++)
        {
            run.Axes[axis].AsSpan(skipped).CopyTo(block.Fill(axis));
        }

        block.SetCount(count);
        var taker = new Taker(each);
        new StrokeMeter(new() { Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = rate, NominalHz = nominal, StillBelowMetres = 0.01e-3, FullScale = run.FullScale, Blows = listener })
            .Add(block, taker);
        return taker.Readings;
    }

    /// <summary>Mixes numbers into a seed (FNV-1a, from memory).</summary>
    public static int Hash(params ReadOnlySpan<int> parts)
    {
        var hash = 1469598103934665603UL;
        foreach (var part in parts)
        {
            hash = (hash ^ (uint)part) * 1099511628211;
            hash ^= hash >> 29;
        }

        return (int)(hash & 0x7FFFFFFF);
    }

    /// <summary>Names a kind.</summary>
    public static string Words(StudyKind kind) => kind switch
    {
        StudyKind.Strike => "strike, every cycle",
        StudyKind.StrikeEverySecond => "strike, every second",
        StudyKind.StrikeEveryThird => "strike, every third",
        StudyKind.StrikeContact => "strike, gap too small",
        StudyKind.Faint => "faint, every cycle",
        StudyKind.FaintEverySecond => "faint, every second",
        StudyKind.FaintEveryThird => "faint, every third",
        StudyKind.FaintContact => "faint, gap too small",
        StudyKind.Healthy => "healthy",
        StudyKind.PhaseCut => "phase-cut supply",
        StudyKind.Impacts => "falling pieces",
        StudyKind.Lumps => "lumps",
        StudyKind.Neighbour => "neighbour",
        StudyKind.Rattle => "loose guard",
        StudyKind.Rub => "tray rubs",
        StudyKind.Clipped => "sensor clips",
        _ => "bad connector",
    };

    private static StudyTally Sum(Dictionary<(StudyKind Kind, int Rate, int Hertz), StudyTally> tallies, Func<StudyKind, bool> which, int? rate = null)
    {
        var sum = new StudyTally();
        foreach (var (key, tally) in tallies)
        {
            if (which(key.Kind) && (rate is null || key.Rate == rate))
            {
                sum.Take(tally);
            }
        }

        return sum;
    }

    private static string Cell(StudyTally tally)
    {
        var called = 100.0 * tally.Called / tally.Windows;
        var unknown = 100.0 * (tally.Windows - tally.Judged) / tally.Windows;
        return string.Create(CultureInfo.InvariantCulture, $" {called:0.##}{(unknown > 0 ? $" ({unknown:0.#})" : "")} |");
    }

    private static int Judge(Dictionary<(StudyKind Kind, int Rate, int Hertz), StudyTally> tallies, int[] rates)
    {
        var targets = new Targets();
        Console.WriteLine();
        Console.WriteLine("| rate | strikes of 30 % and more: called | possible | ruled out | faint: called | possible | ruled out | without strike: called | possible |\n|---|---|---|---|---|---|---|---|---|");
        foreach (var rate in rates)
        {
            var (strong, faint, none) = (Sum(tallies, kind => kind < StudyKind.Faint, rate), Sum(tallies, Faint, rate), Sum(tallies, kind => kind > StudyKind.FaintContact, rate));
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {rate} Hz | {Per(strong, strong.Called)} | {Per(strong, strong.Possible)} | {Per(strong, strong.RuledOut)} | {Per(faint, faint.Called)} | {Per(faint, faint.Possible)} | {Per(faint, faint.RuledOut)} | {Per(none, none.Called)} | {Per(none, none.Possible)} |"));
        }

        Console.WriteLine();
        foreach (var rate in rates)
        {
            var strong = Sum(tallies, kind => kind < StudyKind.Faint, rate);
            targets.Below($"strikes of 30 % and more ruled out at {rate} Hz", 100.0 * strong.RuledOut / strong.Windows, 100 * (1 - Detected), "%");
            Share("strikes of 30 % and more", kind => kind < StudyKind.Faint, rate, Detected);
            Share("faint strikes", Faint, rate, DetectedFaint);
        }

        var quiet = Sum(tallies, kind => kind > StudyKind.FaintContact);
        targets.Below($"false calls in {quiet.Windows} windows, a million", 1e6 * quiet.Called / quiet.Windows, 1e6 * FalseCalls + 0.5, "");
        return targets.Status;

        void Share(string name, Func<StudyKind, bool> which, int rate, double least)
        {
            var all = Sum(tallies, which, rate);
            targets.AtLeast($"{name} at {rate} Hz", 100.0 * all.Called / all.Windows, 100 * least, "%");
        }

        static bool Faint(StudyKind kind) => kind is >= StudyKind.Faint and <= StudyKind.FaintContact;

        static string Per(StudyTally tally, int some) => (100.0 * some / tally.Windows).ToString("0.###", CultureInfo.InvariantCulture) + " %";
    }

    private sealed class Taker(Action<WindowReading>? each) : IWindowSink
    {
        public List<WindowReading> Readings { get; } = [];

        public void Window(in WindowReading reading)
        {
            Readings.Add(reading);
            each?.Invoke(reading);
        }

        public void Decay(in DecayReading reading)
        {
        }
    }
}
