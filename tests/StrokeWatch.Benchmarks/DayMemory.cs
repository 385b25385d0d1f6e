using System.Globalization;

namespace StrokeWatch.Benchmarks;

/// <summary>Measures the peak memory of <c>replay</c> on a capture of a whole day beside one of half an hour; the day needs 4.2 GB of disk.</summary>
internal static class DayMemory
{
    private const double MostMiB = 120;

    /// <summary>Runs with: the built program, and hours, 24 where not given.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 1)
        {
            Console.Error.WriteLine("usage: day-memory STROKEWATCH.DLL|EXECUTABLE [HOURS]");
            return 2;
        }

        var hours = arguments.Length > 1 ? double.Parse(arguments[1], CultureInfo.InvariantCulture) : 24;
        var folder = Directory.CreateTempSubdirectory("strokewatch-day").FullName;
        var targets = new Targets();
        try
        {
            var feeder = Path.Combine(folder, "feeder.toml");
            File.WriteAllText(feeder, TraySignal.FeederToml);
            foreach (var minutes in (double[])[30, 60 * hours])
            {
                var capture = Path.Combine(folder, "day.wav");
                TraySignal.Write(capture, minutes);
                var cost = BuiltProgram.Run(BuiltProgram.Command(arguments[0], "replay", capture, "--feeder", feeder, "--json", Path.Combine(folder, "out.json")));
                BuiltProgram.Print(string.Create(CultureInfo.InvariantCulture, $"{minutes / 60:0.#} h"), cost, minutes);
                targets.Below(string.Create(CultureInfo.InvariantCulture, $"peak memory of replay on {minutes / 60:0.#} h"), cost.PeakMiB, MostMiB, "MiB");
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        return targets.Status;
    }
}
