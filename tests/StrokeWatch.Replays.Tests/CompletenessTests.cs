using Xunit;

namespace StrokeWatch.Replays.Tests;

public sealed class CompletenessTests
{
    /// <summary>The stories that must be there, whatever else is.</summary>
    private static readonly string[] Stories =
    [
        "steady-50hz", "steady-60hz", "steady-100hz", "steady-120hz", "low", "low-voltage", "high", "over-stroke", "strike-faint", "strike-plain", "phase-cut",
        "material-impacts", "stopped", "gap", "clipped", "start-and-coast-down",
    ];

    [Fact]
    public void There_are_at_least_a_dozen_captures()
    {
        var captures = Directory.GetFiles(Cases.Folder).Count(file => Path.GetExtension(file) is ".wav" or ".csv");
        Assert.True(captures >= 12, $"only {captures} captures in {Cases.Folder}");
        Assert.Equal(captures, Cases.Names.Count);
        Assert.Empty(Stories.Except(Cases.Names));
    }

    [Theory]
    [ClassData(typeof(CaseNames))]
    public void Each_case_has_scenario_feeder_one_capture_truth_and_golden_output(string name)
    {
        string[] missing = [.. new[] { ".toml", ".feeder.toml", ".truth.json", ".golden.json" }.Where(end => !File.Exists(Cases.At(name, end)))];
        Assert.True(missing.Length == 0, $"sim-data/{name} lacks {string.Join(", ", missing)}");
        Assert.True(File.Exists(Cases.At(name, ".wav")) ^ File.Exists(Cases.At(name, ".csv")), $"sim-data/{name} needs one capture, .wav or .csv");
    }
}
