using System.CommandLine;
using StrokeWatch.Configuration;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Commands;

/// <summary>The command <c>record</c>: a capture from the live sensor.</summary>
internal static class RecordLine
{
    private const double PatienceSeconds = 10;

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings)
    {
        var config = new Option<string>("--config") { Description = "The daemon's configuration.", Required = true };
        var seconds = Numbers.Positive("--seconds", "Length of the capture in seconds.");
        seconds.Required = true;
        var target = new Option<string>("--out") { Description = "The capture to write, .csv or .wav.", Required = true };
        var place = new Option<string?>("--place") { Description = "Where sensors have ports of their own: the place whose port is recorded, such as front." };
        var command = new Command("record", "Writes a capture from the live sensor.") { config, seconds, target, place };
        command.SetAction(parsed => Run(parsed.GetValue(config)!, parsed.GetValue(seconds)!.Value, parsed.GetValue(target)!, parsed.GetValue(place), surroundings));
        return command;
    }

    private static int Run(string configFile, double seconds, string path, string? place, Surroundings surroundings)
    {
        var read = WatchFile.Read(configFile);
        var problems = read.Errors.Select(error => error.ToString()).Append(CaptureWriters.Trouble(path)).OfType<string>().ToList();
        problems.ForEach(surroundings.Error.WriteLine);
        if (problems.Count > 0 || read.Value is not { } configuration)
        {
            return CommandLine.Bad;
        }

        if (Choose(configuration, place, out var trouble) is not { } chosen)
        {
            surroundings.Error.WriteLine($"strokewatch record: {trouble}");
            return CommandLine.Bad;
        }

        using var source = SensorOpening.Open(chosen, surroundings.Time, happened => surroundings.Error.WriteLine(happened.Words));
        return Record(source, chosen.Port.Path, seconds, path, surroundings);
    }

    /// <summary>Chooses the port: sensors on several ports have clocks of their own, which one capture cannot hold.</summary>
    private static SensorPort? Choose(WatchConfiguration configuration, string? place, out string? trouble)
    {
        List<SensorPlace> places = [.. configuration.Ports.SelectMany(port => port.Sensor.Places)];
        trouble = null;
        if (place is null)
        {
            trouble = configuration.Ports.Count == 1 ? null
                : $"the sensors have ports, and clocks, of their own, which one capture cannot hold: record each by itself, with --place {string.Join(" or ", places.Select(SensorPlaces.Name))}";
            return trouble is null ? configuration.Ports[0] : null;
        }

        if (!SensorPlaces.TryParse(place, out var wanted) || configuration.Ports.FirstOrDefault(port => port.Sensor.Places.Contains(wanted)) is not { } chosen)
        {
            trouble = places.Count == 0 ? "--place: the configuration names no places; leave it out" : $"--place: '{place}' is no sensor of this configuration; use {string.Join(" or ", places.Select(SensorPlaces.Name))}";
            return null;
        }

        return chosen;
    }

    private static int Record(ISampleSource source, string port, double seconds, string path, Surroundings surroundings)
    {
        var block = new SampleBlock(source.Info.Axes.Count, 2048);
        var begun = surroundings.Time.GetTimestamp();
        ICaptureWriter? writer = null;
        double? until = null;
        try
        {
            while (!surroundings.Stop.IsCancellationRequested)
            {
                var state = source.Read(block);
                if (state == SourceState.End)
                {
                    break;
                }

                if (state != SourceState.Samples || (block.RateHz ?? source.Info.RateHz) is not { } rate)
                {
                    if (surroundings.Time.GetElapsedTime(begun).TotalSeconds > PatienceSeconds + seconds)
                    {
                        break;
                    }

                    continue;
                }

                until ??= block.StartSeconds + seconds;
                writer ??= CaptureWriters.Create(path, source.Info.Axes, rate, source.Info.FullScale, source.Info.Places, surroundings.Time.GetUtcNow() - TimeSpan.FromSeconds(block.Count / rate), source.Info.HasSupply);
                block.SetCount(Math.Clamp((int)Math.Round((until.Value - block.StartSeconds) * rate), 0, block.Count));
                writer.Write(block);
                if (block.StartSeconds + (block.Count + 0.5) / rate >= until)
                {
                    surroundings.Output.WriteLine($"{path}: {seconds:0.###} s from {port}, {Counted.Of(source.Counters.Gaps, "gap")}, {Counted.Of(source.Counters.MissingSamples, "sample")} missing");
                    return CommandLine.Well;
                }
            }
        }
        finally
        {
            writer?.Dispose();
        }

        surroundings.Error.WriteLine(writer is null
            ? $"{port}: nothing came from the sensor; check plug, cable, supply and the [sensor] table, then try again"
            : $"{path}: the recording ended early; what came before is in the file");
        return CommandLine.Bad;
    }
}
