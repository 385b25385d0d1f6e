using System.Globalization;
using System.Text.Json;
using StrokeWatch.Commands;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class SimulateCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-").FullName;

    public void Dispose() => Directory.Delete(folder, true);

    [Fact]
    public void A_csv_capture_and_its_truth_are_written_beside_each_other()
    {
        var (status, errors) = Simulate("[run]\nduration_s = 1.5\n[machine]\nstroke = \"1.70 mm\"", "run.csv");
        Assert.Equal((0, ""), (status, errors));
        var lines = File.ReadAllLines(Path.Combine(folder, "run.csv"));
        Assert.Equal("t_s,x_g,y_g,z_g", lines[0]);
        Assert.Equal(4801, lines.Length);
        Assert.Equal(0.0003125, double.Parse(lines[2].Split(',')[0], CultureInfo.InvariantCulture), 12);
        using var truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "run.truth.json")));
        var stroke = truth.RootElement.GetProperty("stroke");
        Assert.Equal(1.7, stroke.GetProperty("pp_mm").GetDouble(), 3);
        Assert.Equal("in-band", stroke.GetProperty("verdict").GetString());
        Assert.False(truth.RootElement.GetProperty("strike").GetProperty("found").GetBoolean());
        Assert.Equal(4800, truth.RootElement.GetProperty("capture").GetProperty("samples").GetInt32());
    }

    [Fact]
    public void A_wav_capture_holds_floats_in_g()
    {
        Assert.Equal(0, Simulate("[run]\nduration_s = 0.5\n[[on]]\nfrom_s = 100", "run.wav").Status);
        using var source = CaptureFile.Open(Path.Combine(folder, "run.wav"));
        var block = new SampleBlock(3, 2000);

        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal(1600, block.Count);
        Assert.Equal((3200, AccelerationUnit.G), (source.Info.RateHz, source.Info.Unit));
        Assert.Empty(source.Info.Guesses);
        Assert.Equal(Gravity.Standard, block[2].ToArray().Average(), 0.1);
    }

    [Fact]
    public void Two_runs_of_a_scenario_are_the_same_to_the_byte()
    {
        Simulate("[run]\nduration_s = 0.3", "a.wav");
        Simulate("[run]\nduration_s = 0.3", "b.wav");
        Assert.Equal(File.ReadAllBytes(Path.Combine(folder, "a.wav")), File.ReadAllBytes(Path.Combine(folder, "b.wav")));
    }

    [Theory]
    [InlineData("[[gap]]\nfrom_s = 1\nto_s = 2", "a.wav", "no time column")]
    [InlineData("", "a.mp3", "ends in .csv or .wav")]
    [InlineData("", "nowhere/a.csv", "a folder that is there")]
    [InlineData("nonsense = 1", "a.csv", "unknown key")]
    public void What_cannot_be_done_is_said_in_one_line(string scenario, string name, string says)
    {
        var (status, errors) = Simulate(scenario, name);
        Assert.Equal(2, status);
        Assert.Contains(says, errors, StringComparison.Ordinal);
        Assert.Single(errors.TrimEnd().Split('\n'));
    }

    [Fact]
    public void A_scenario_that_is_not_there_is_said_in_one_line()
    {
        using var error = new StringWriter();
        Assert.Equal(2, SimulateCommand.Run(Path.Combine(folder, "none.toml"), Path.Combine(folder, "a.csv"), error));
        Assert.Single(error.ToString().TrimEnd().Split('\n'));
    }

    private (int Status, string Errors) Simulate(string scenario, string name)
    {
        var path = Path.Combine(folder, "scenario.toml");
        File.WriteAllText(path, scenario);
        using var error = new StringWriter();
        return (SimulateCommand.Run(path, Path.Combine(folder, name), error), error.ToString());
    }
}
