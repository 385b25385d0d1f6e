using System.Diagnostics;
using System.Globalization;

namespace StrokeWatch.Benchmarks;

/// <summary>What a run of a whole process took.</summary>
/// <param name="Wall">Wall-clock time in s, start-up included.</param>
/// <param name="Processor">User and system processor time of all its threads in s.</param>
/// <param name="PeakMiB">Peak resident memory in MiB.</param>
internal readonly record struct RunCost(double Wall, double Processor, double PeakMiB);

/// <summary>The built program, a strokewatch.dll or a native executable, and other programs beside it.</summary>
internal static class BuiltProgram
{
    private const string Time = "/usr/bin/time";

    /// <summary>Gives the program and arguments that start the built program.</summary>
    public static (string Program, string[] Arguments) Command(string built, params string[] arguments)
    {
        if (!File.Exists(built))
        {
            throw new FileNotFoundException($"{built}: there is no such program; build or publish src/StrokeWatch and name its strokewatch.dll or strokewatch");
        }

        return built.EndsWith(".dll", StringComparison.OrdinalIgnoreCase) ? ("dotnet", ["exec", built, .. arguments]) : (Path.GetFullPath(built), arguments);
    }

    /// <summary>Runs a program to its end; status 0 and 1 are answers, anything else throws with its words.</summary>
    public static RunCost Run((string Program, string[] Arguments) command)
    {
        var told = Path.GetTempFileName();
        try
        {
            var before = ProcessorTime.OfEndedChildren();
            var watch = Stopwatch.StartNew();
            using var process = Process.Start(new ProcessStartInfo(Time, ["-f", "%M", "-o", told, command.Program, .. command.Arguments])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            })!;
            var output = process.StandardOutput.ReadToEndAsync();
            var error = process.StandardError.ReadToEndAsync();
            process.WaitForExit();
            var wall = watch.Elapsed.TotalSeconds;
            Task.WaitAll(output, error);
            if (process.ExitCode > 1)
            {
                throw new InvalidOperationException($"{command.Program} ended with {process.ExitCode}: {error.Result}");
            }

            var kibibytes = double.Parse(File.ReadAllLines(told)[^1], CultureInfo.InvariantCulture);
            return new(wall, ProcessorTime.OfEndedChildren() - before, kibibytes / 1024);
        }
        finally
        {
            File.Delete(told);
        }
    }

    /// <summary>Gives the middle one by wall-clock time.</summary>
    public static RunCost Median(IReadOnlyCollection<RunCost> runs) => runs.OrderBy(run => run.Wall).ElementAt(runs.Count / 2);

    /// <summary>Writes a line on a run over so many minutes of signal.</summary>
    public static void Print(string name, RunCost cost, double minutes) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"{name,-10} {cost.Wall,8:0.000} s wall, {cost.Processor,8:0.000} s processor, {cost.PeakMiB,6:0.0} MiB peak, {minutes * 60 / cost.Processor,8:0} times real time on one core"));
}
