using System.CommandLine;
using System.Net;
using StrokeWatch.Configuration;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Live;

namespace StrokeWatch.Commands;

/// <summary>The command <c>watch</c>: the daemon.</summary>
internal static class WatchLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings)
    {
        var config = new Option<string?>("--config") { Description = $"The daemon's configuration; {CheckCommand.DefaultConfiguration} where not given." };
        var demo = new Option<bool>("--demo") { Description = "Needs no hardware and no configuration: a simulated feeder, healthy, then over-stroke, then striking." };
        var folder = new Option<string>("--demo-folder") { Description = "Where the demonstration leaves its database and capture.", DefaultValueFactory = _ => WatchDemo.DefaultFolder };
        var page = new Option<string>("--demo-page") { Description = "Where the demonstration's page is served; port 0 takes any that is free.", DefaultValueFactory = _ => PageSettings.Usual.ToString() };
        page.Validators.Add(given =>
        {
            if (given.GetValueOrDefault<string>() is { } text && (PageSettings.Address(text) is not { } address || !IPAddress.IsLoopback(address.Address)))
            {
                given.AddError($"--demo-page is '{text}'; an address of this machine alone with its port was expected, such as {PageSettings.Usual}");
            }
        });
        var command = new Command("watch", "Watches a feeder: stroke, band, alarms, store, page.") { config, demo, folder, page };
        command.SetAction(parsed => parsed.GetValue(demo)
            ? WatchDemo.Run(parsed.GetValue(folder)!, PageSettings.Address(parsed.GetValue(page)!)!, surroundings)
            : Run(parsed.GetValue(config), surroundings));
        return command;
    }

    private static int Run(string? file, Surroundings surroundings)
    {
        if (file is null && !File.Exists(CheckCommand.DefaultConfiguration))
        {
            surroundings.Error.WriteLine(
                $"strokewatch watch: there is no {CheckCommand.DefaultConfiguration}; write one (systemd/strokewatch.toml is an example), give --config FILE, or try --demo");
            return CommandLine.Bad;
        }

        var read = WatchFile.Read(file ?? CheckCommand.DefaultConfiguration);
        if (read.Value is not { } configuration)
        {
            foreach (var error in read.Errors)
            {
                surroundings.Error.WriteLine(error);
            }

            return CommandLine.Bad;
        }

        var run = new WatchRun
        {
            Feeder = configuration.Feeder,
            Store = configuration.Store,
            Delays = configuration.Alarms,
            LogLevel = configuration.LogLevel,
            History = configuration.History,
            Book = configuration.BookPath,
            BookRenames = MachineBook.IsBeside(configuration.BookPath, configuration.FeederPath),
            Influx = configuration.Influx,
            Captures = configuration.Captures,
            Webhook = configuration.Webhook,
            Relay = configuration.Relay,
            Page = configuration.Page,
            Supply = configuration.Supply,
            Mqtt = configuration.Mqtt,
            Terminal = surroundings.Terminal,
            Output = surroundings.Output,
            Time = surroundings.Time,
        };
        var raised = run.Run(
            [.. configuration.Ports.Select(port => (Func<Action<SensorEvent>, LiveSensorSource>)(tell => SensorOpening.Open(port, surroundings.Time, tell)))], surroundings.Stop);
        return raised > 0 ? CommandLine.NotWell : CommandLine.Well;
    }
}
