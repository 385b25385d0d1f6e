using System.Diagnostics;
using System.Globalization;
using nietras.SeparatedValues;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Benchmarks;

/// <summary>
/// Times our CSV reader beside the fastest general .NET reader of columns of numbers, on one thread each, taking turns in one process: ours finds the table, surveys the
/// times, rejects and marks; the other knows the columns and reads three of them.
/// </summary>
internal static class CsvSpeed
{
    private const double LeastShare = 60;
    private const int Turns = 9;

    /// <summary>Runs with: minutes of signal.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 1)
        {
            Console.Error.WriteLine("usage: csv-speed MINUTES");
            return 2;
        }

        var folder = Directory.CreateTempSubdirectory("strokewatch-csv").FullName;
        try
        {
            var capture = Path.Combine(folder, "long.csv");
            TraySignal.Write(capture, double.Parse(arguments[0], CultureInfo.InvariantCulture));
            var mebibytes = new FileInfo(capture).Length / 1048576.0;
            var (ours, theirs) = (double.PositiveInfinity, double.PositiveInfinity);
            for (var turn = 0; turn < Turns; turn++)
            {
                ours = Math.Min(ours, Time(() => Ours(capture), out var sums));
                theirs = Math.Min(theirs, Time(() => Theirs(capture), out var others));
                Compare(sums, others);
            }

            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"ours {mebibytes / ours:0.0} MiB/s, Sep {mebibytes / theirs:0.0} MiB/s, best of {Turns} on {mebibytes:0} MiB"));
            var targets = new Targets();
            targets.AtLeast("our CSV reader beside Sep", 100 * theirs / ours, LeastShare, "% of its speed");
            return targets.Status;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static double Time(Func<double[]> read, out double[] sums)
    {
        var watch = Stopwatch.StartNew();
        sums = read();
        return watch.Elapsed.TotalSeconds;
    }

    private static double[] Ours(string path)
    {
        using var source = CaptureFile.Open(path);
        var block = new SampleBlock(source.Info.Axes.Count, 8192);
        var sums = new double[3];
        while (source.Read(block) == SourceState.Samples)
        {
            for (var channel = 0; channel < sums.Length; channel++)
            {
                foreach (var value in block[channel])
                {
                    sums[channel] += value;
                }
            }
        }

        return sums;
    }

    private static double[] Theirs(string path)
    {
        using var reader = Sep.New(',').Reader(options => options with { DisableQuotesParsing = true }).FromFile(path);
        var sums = new double[3];
        foreach (var row in reader)
        {
            sums[0] += row[1].Parse<double>();
            sums[1] += row[2].Parse<double>();
            sums[2] += row[3].Parse<double>();
        }

        return sums;
    }

    /// <summary>Both must have read every number: in m/s² here, in g there.</summary>
    private static void Compare(double[] ours, double[] theirs)
    {
        for (var i = 0; i < ours.Length; i++)
        {
            if (!(Math.Abs(ours[i] - theirs[i] * Gravity.Standard) <= 1e-6 * Math.Max(1, Math.Abs(ours[i]))))
            {
                throw new InvalidOperationException(FormattableString.Invariant($"the sums of column {i + 1} differ: {ours[i]} m/s² and {theirs[i]} g"));
            }
        }
    }
}
