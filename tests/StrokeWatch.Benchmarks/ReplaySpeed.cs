using System.Globalization;

namespace StrokeWatch.Benchmarks;

/// <summary>Times <c>replay</c> as a whole process on a long capture beside the Python yardstick on the same file, taking turns, and prints the ratio of the medians; held to one core it is timed beside them.</summary>
internal static class ReplaySpeed
{
    private const double LeastRatio = 30, LeastTimesRealTime = 10_000;

    /// <summary>Runs with: minutes, the built program, the yardstick's path (or - for none), wav or csv, and how many turns.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 3)
        {
            Console.Error.WriteLine("usage: replay-speed MINUTES STROKEWATCH.DLL|EXECUTABLE YARDSTICK.PY|- [wav|csv [TURNS]]");
            return 2;
        }

        var minutes = double.Parse(arguments[0], CultureInfo.InvariantCulture);
        var kind = arguments.Length > 3 ? arguments[3] : "wav";
        var turns = arguments.Length > 4 ? int.Parse(arguments[4], CultureInfo.InvariantCulture) : 3;
        var folder = Directory.CreateTempSubdirectory("strokewatch-speed").FullName;
        var targets = new Targets();
        try
        {
            var capture = Path.Combine(folder, "long." + kind);
            TraySignal.Write(capture, minutes);
            var feeder = Path.Combine(folder, "feeder.toml");
            File.WriteAllText(feeder, TraySignal.FeederToml);
            var replay = BuiltProgram.Command(arguments[1], "replay", capture, "--feeder", feeder, "--json", Path.Combine(folder, "out.json"));
            var alone = ("taskset", (string[])["-c", "0", replay.Program, .. replay.Arguments]);
            var (ours, single, theirs) = (new List<RunCost>(), new List<RunCost>(), new List<RunCost>());
            for (var turn = 0; turn < turns; turn++)
            {
                ours.Add(BuiltProgram.Run(replay));
                BuiltProgram.Print("replay", ours[^1], minutes);
                single.Add(BuiltProgram.Run(alone));
                BuiltProgram.Print("one core", single[^1], minutes);
                if (arguments[2] != "-")
                {
                    theirs.Add(BuiltProgram.Run(("/usr/bin/python3", [arguments[2], capture, "--supply-hz", "50"])));
                    BuiltProgram.Print("yardstick", theirs[^1], minutes);
                }
            }

            var median = BuiltProgram.Median(ours);
            if (theirs.Count > 0)
            {
                targets.AtLeast("replay beside the yardstick, medians of wall-clock time", BuiltProgram.Median(theirs).Wall / median.Wall, LeastRatio, "times as fast");
            }

            // What CSV costs is held beside another reader, by csv-speed.
            if (kind == "wav")
            {
                var processor = single.Select(run => run.Processor).Order().ElementAt(single.Count / 2);
                targets.AtLeast("replay held to one core, median", minutes * 60 / processor, LeastTimesRealTime, "times real time");
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        return targets.Status;
    }
}
