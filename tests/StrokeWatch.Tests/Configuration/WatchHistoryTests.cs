using StrokeWatch.Configuration;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class WatchHistoryTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Without_the_table_the_defaults_hold_and_the_baseline_lies_beside_the_feeder_file()
    {
        var history = Read("").Value!.History;
        Assert.Equal((3600.0, 30.0, 30), (history.Stretches.LongestSeconds, history.Stretches.LeastSeconds, history.Learning!.Enough));
        Assert.Equal((3.0, 14.0), (history.Learning.Shortest.TotalDays, history.Learning.Longest.TotalDays));
        Assert.Null(history.LearnSince);
        Assert.Equal(folder.At("sand.baseline.json"), history.BaselinePath);
    }

    [Fact]
    public void Every_value_is_taken_from_the_table()
    {
        var history = Read("""
            [history]
            stretch_minutes = 10
            least_seconds = 5
            learn = true
            learn_stretches = 12
            learn_days = 1
            learn_most_days = 2.5
            learn_since = "2026-03-04T08:00:00Z"
            baseline = "kept/sand.json"
            """).Value!.History;
        Assert.Equal((600.0, 5.0, 12), (history.Stretches.LongestSeconds, history.Stretches.LeastSeconds, history.Learning!.Enough));
        Assert.Equal((1.0, 2.5), (history.Learning.Shortest.TotalDays, history.Learning.Longest.TotalDays));
        Assert.Equal(new DateTimeOffset(2026, 3, 4, 8, 0, 0, TimeSpan.Zero), history.LearnSince);
        Assert.Equal(folder.At(Path.Combine("kept", "sand.json")), history.BaselinePath);
    }

    [Fact]
    public void Learning_can_be_switched_off() => Assert.Null(Read("[history]\nlearn = false").Value!.History.Learning);

    [Theory]
    [InlineData("stretch_minutes = 0.5", "stretch_minutes")]
    [InlineData("stretch_minutes = 721", "stretch_minutes")]
    [InlineData("least_seconds = 0", "least_seconds")]
    [InlineData("learn_stretches = 7", "learn_stretches")]
    [InlineData("learn_days = 20", "learn_days")]
    [InlineData("learn_since = \"yesterday\"", "a date in quotes such as")]
    [InlineData("learn_sinse = \"2026-03-04\"", "learn_since")]
    public void What_cannot_be_is_an_error_with_its_line(string line, string said)
    {
        var error = Assert.Single(Read("[history]\n" + line).Errors);
        Assert.Contains(said, error.ToString(), StringComparison.Ordinal);
        Assert.Contains("watch.toml:8", error.ToString(), StringComparison.Ordinal);
    }

    private StrokeWatch.Configuration.Toml.ConfigurationResult<WatchConfiguration> Read(string history)
    {
        folder.Write("sand.toml", Examples.Least);
        return WatchFile.Read(folder.Write("watch.toml", "feeder = \"sand.toml\"\n[sensor]\nport = \"/dev/ttyUSB0\"\nprotocol = \"frames\"\n[store]\npath = \"sand.db\"\n" + history + "\n"));
    }
}
