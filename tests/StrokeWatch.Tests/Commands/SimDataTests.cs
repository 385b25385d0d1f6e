using System.Text.Json;
using StrokeWatch.Commands;
using StrokeWatch.Configuration;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class SimDataTests
{
    private static readonly string Folder = Path.Combine(Root(), "sim-data");

    public static TheoryData<string> Names() => [.. Directory.GetFiles(Folder, "*.toml").Where(file => !file.EndsWith(".feeder.toml", StringComparison.Ordinal))
        .Select(file => Path.GetFileNameWithoutExtension(file)!).Order(StringComparer.Ordinal)];

    [Fact]
    public void There_are_at_least_a_dozen() => Assert.True(Names().Count >= 12);

    [Theory]
    [MemberData(nameof(Names))]
    public void Each_scenario_tells_its_story_and_has_its_files_and_a_feeder_that_is_the_same(string name)
    {
        var path = Path.Combine(Folder, name);
        Assert.StartsWith("# ", File.ReadAllText($"{path}.toml"), StringComparison.Ordinal);
        Assert.True(File.Exists($"{path}.wav") ^ File.Exists($"{path}.csv"));
        Assert.True(File.Exists($"{path}.truth.json"));
        var reading = ScenarioFile.Read($"{path}.toml");
        Assert.Empty(reading.Errors);
        var feeder = FeederFile.Read($"{path}.feeder.toml");
        Assert.Empty(feeder.Errors);
        Assert.Equal(reading.Value!.Feeder, feeder.Value! with { Sensor = reading.Value.Feeder.Sensor, Sensors = reading.Value.Feeder.Sensors });
        Assert.Equal(reading.Value.Sensors.Select(sensor => sensor.Place), feeder.Value.Sensors.Select(sensor => sensor.Place));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Each_capture_is_read_as_its_truth_says(string name)
    {
        var path = Path.Combine(Folder, name);
        using var truth = JsonDocument.Parse(File.ReadAllText($"{path}.truth.json"));
        var capture = truth.RootElement.GetProperty("capture");
        var wanted = SensorChannels.Wanted(FeederFile.Read($"{path}.feeder.toml").Value!);
        using var source = CaptureFile.Open(File.Exists($"{path}.wav") ? $"{path}.wav" : $"{path}.csv", wanted);
        var block = new SampleBlock(3 * Math.Max(1, wanted.Sensors.Count), 4096);
        while (source.Read(block) != SourceState.End)
        {
            Assert.InRange(block.Count, 0, block.Capacity);
        }

        Assert.Equal(capture.GetProperty("samples").GetInt64(), source.Counters.Samples);
        Assert.Equal(capture.GetProperty("missing_samples").GetInt64(), source.Counters.MissingSamples);
        Assert.Equal(capture.GetProperty("gaps").GetArrayLength(), source.Counters.Gaps);
        Assert.Empty(source.Counters.Rejected);
        Assert.Equal(AccelerationUnit.G, source.Info.Unit);
    }

    [Theory]
    [InlineData("strike-every-second", "in-band", true)]
    [InlineData("over-stroke", "over-stroke", false)]
    [InlineData("phase-cut", "in-band", false)]
    [InlineData("strike-hard", "low", true)]
    [InlineData("clipped", "unmeasurable", false)]
    [InlineData("stopped", "stopped", false)]
    public void The_truth_says_what_the_story_says(string name, string verdict, bool strike)
    {
        using var truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(Folder, $"{name}.truth.json")));
        Assert.Equal(verdict, truth.RootElement.GetProperty("stroke").GetProperty("verdict").GetString());
        Assert.Equal(strike, truth.RootElement.GetProperty("strike").GetProperty("found").GetBoolean());
    }

    [Theory]
    [InlineData("steady-50hz")]
    [InlineData("stopped")]
    public void A_capture_is_what_its_scenario_makes(string name)
    {
        var made = Path.Combine(Directory.CreateTempSubdirectory("strokewatch-").FullName, $"{name}.wav");
        Assert.Equal(0, SimulateCommand.Run(Path.Combine(Folder, $"{name}.toml"), made, TextWriter.Null));
        var (kept, again) = (File.ReadAllBytes(Path.Combine(Folder, $"{name}.wav")), File.ReadAllBytes(made));
        Assert.Equal(kept.Length, again.Length);

        // Two steps of the sensor: another machine's sine may round the last digit otherwise.
        for (var at = 58; at < kept.Length; at += sizeof(float))
        {
            Assert.Equal(BitConverter.ToSingle(kept, at), BitConverter.ToSingle(again, at), 2.0f * 64 / 65536);
        }

        Directory.Delete(Path.GetDirectoryName(made)!, true);
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "StrokeWatch.sln")))
        {
            folder = folder.Parent!;
        }

        return folder.FullName;
    }
}
