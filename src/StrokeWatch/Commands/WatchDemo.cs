using System.Globalization;
using System.Net;
using StrokeWatch.Configuration;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Wav;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Commands;

/// <summary>The demonstration: a simulated feeder speaks the framed protocol through a pseudo-terminal to the daemon as it is.</summary>
internal static class WatchDemo
{
    /// <summary>Where the demonstration leaves its files, where not told otherwise.</summary>
    public const string DefaultFolder = "strokewatch-demo";

    private const double HealthySeconds = 20;
    private const double RiseSeconds = 25;
    private const double HoldSeconds = 10;
    private const double WholeSeconds = 85;
    private const double FullScaleG = 32;

    private static readonly TimeSpan Drain = TimeSpan.FromSeconds(1);

    /// <summary>Runs the demonstration.</summary>
    /// <param name="folder">Where it leaves its files.</param>
    /// <param name="page">Where its page is served; where it cannot be, the demonstration goes on without.</param>
    /// <param name="surroundings">The streams, the clock, the wish to stop.</param>
    public static int Run(string folder, IPEndPoint page, Surroundings surroundings)
    {
        Directory.CreateDirectory(folder);
        var (database, capture, feederFile) = (Path.Combine(folder, "demo.db"), Path.Combine(folder, "demo.wav"), Path.Combine(folder, "cullet.feeder.toml"));
        foreach (var old in Directory.GetFiles(folder, "demo.db*"))
        {
            File.Delete(old);
        }

        File.WriteAllText(feederFile, DemoFeeder.Toml + DemoFeeder.Supply);
        var feeder = FeederFile.Read(feederFile).Value!;
        surroundings.Output.WriteLine("Demonstration: a simulated feeder, healthy at first, then its supply voltage drifts up to over-stroke, then the armature strikes.");
        surroundings.Output.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"It takes {WholeSeconds:0} s; Ctrl-C ends it sooner. StrokeWatch is not a safety function: it never stops a feeder by itself."));

        var scenario = DemoScenario.Create(HealthySeconds, RiseSeconds, HoldSeconds, WholeSeconds) with { Feeder = feeder, SupplyChannel = new() };
        using var tray = new SimulatedFeederSource(scenario);
        using var link = DemoLink.Create();
        using var sensor = new SimulatedSensor(
            tray, link.Sink, new() { RateHz = scenario.Sensor.RateHz, FullScale = FullScaleG * Gravity.Standard }, surroundings.Time);
        using var end = CancellationTokenSource.CreateLinkedTokenSource(surroundings.Stop);
        using var watcher = surroundings.Time.CreateTimer(Watcher(sensor, end), null, Drain, Drain);
        CaptureTee? tee = null;
        var run = new WatchRun
        {
            Feeder = feeder,
            Store = new(database, 1),
            CommitInterval = TimeSpan.FromSeconds(2),
            Terminal = surroundings.Terminal,
            Output = surroundings.Output,
            LogLevel = LogLevelName.Warning,
            Page = new(page, [], Needed: false),
            CapturesFolder = folder,
            Time = surroundings.Time,
            Blocks = source =>
            {
                tee = new(block => new WavCaptureWriter(capture, source.Info.Axes, block.RateHz ?? scenario.Sensor.RateHz, FullScaleG, [], null, source.Info.HasSupply), surroundings.Error.WriteLine);
                return [tee];
            },
        };
        int raised;
        try
        {
            sensor.Start();
            raised = run.Run(
                tell => LiveSensors.Make(new() { Protocol = LiveSensors.Frames }, link.Opener, surroundings.Time, tell), end.Token);
        }
        finally
        {
            tee?.Dispose();
        }

        surroundings.Output.WriteLine();
        surroundings.Output.WriteLine($"Over. {Counted.Of(raised, "alarm")} {(raised == 1 ? "was" : "were")} raised. Left behind to look at: {database} (SQLite), {capture}, {feederFile}.");
        surroundings.Output.WriteLine($"The same answers from the capture:  strokewatch replay {capture} --feeder {feederFile}");
        return raised > 0 ? CommandLine.NotWell : CommandLine.Well;
    }

    /// <summary>Ends the run at the second look after the sensor has ended: the first may come before the last bytes are read.</summary>
    private static TimerCallback Watcher(SimulatedSensor sensor, CancellationTokenSource end)
    {
        var seen = false;
        return _ =>
        {
            if (seen)
            {
                end.Cancel();
            }

            seen = sensor.Ended;
        };
    }
}
