using System.Globalization;
using System.Text.Json;
using StrokeWatch.Commands;
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
        var bytes = File.ReadAllBytes(Path.Combine(folder, "run.wav"));
        Assert.Equal(58 + (1600 * 12), bytes.Length);
        Assert.Equal("RIFF", System.Text.Encoding.ASCII.GetString(bytes, 0, 4));
        Assert.Equal(bytes.Length - 8, BitConverter.ToInt32(bytes, 4));
        Assert.Equal((3, 3, 3200), (BitConverter.ToInt16(bytes, 20), BitConverter.ToInt16(bytes, 22), BitConverter.ToInt32(bytes, 24)));
        Assert.Equal(1, Enumerable.Range(0, 1600).Average(n => BitConverter.ToSingle(bytes, 58 + (12 * n) + 8)), 2);
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
    [InlineData("[run]\nrate_hz = 3200.5", "a.wav", "whole number of hertz")]
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
