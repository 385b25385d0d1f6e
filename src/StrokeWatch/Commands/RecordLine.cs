using System.CommandLine;
using StrokeWatch.Configuration;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
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
        var command = new Command("record", "Writes a capture from the live sensor.") { config, seconds, target };
        command.SetAction(parsed => Run(parsed.GetValue(config)!, parsed.GetValue(seconds)!.Value, parsed.GetValue(target)!, surroundings));
        return command;
    }

    private static int Run(string configFile, double seconds, string path, Surroundings surroundings)
    {
        var read = WatchFile.Read(configFile);
        var problems = read.Errors.Select(error => error.ToString()).Append(CaptureWriters.Trouble(path)).OfType<string>().ToList();
        problems.ForEach(surroundings.Error.WriteLine);
        if (problems.Count > 0 || read.Value is not { } configuration)
        {
            return CommandLine.Bad;
        }

        using var source = SensorOpening.Open(configuration, surroundings.Time, happened => surroundings.Error.WriteLine(happened.Words));
        return Record(source, configuration.Port.Path, seconds, path, surroundings);
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
                    surroundings.Output.WriteLine($"{path}: {seconds:0.###} s from {port}, {source.Counters.Gaps} gaps, {source.Counters.MissingSamples} samples missing");
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
