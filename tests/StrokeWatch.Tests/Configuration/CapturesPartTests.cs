using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Captures;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class CapturesPartTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Every_value_is_taken_from_the_table_and_the_folder_counts_from_the_file()
    {
        var read = Read("folder = \"captures\"\nquota_mb = 50\ntrials_mb = 30\nkeep = [\"20260329T120000Z-strike.wav\", \"20260401T000000Z-strike\"]\nbefore_s = 5\nafter_s = 15\nalarms = [\"strike\", \"low-stroke\"]");
        Assert.Empty(read.Errors);
        var captures = read.Value!.Captures!;
        Assert.Equal((folder.At("captures"), 50_000_000L, TimeSpan.FromSeconds(5), TimeSpan.FromSeconds(15)), (captures.Folder, captures.QuotaBytes, captures.Before, captures.After));
        Assert.Equal(["20260329T120000Z-strike", "20260401T000000Z-strike"], captures.Keep);
        Assert.Equal(30_000_000L, captures.TrialQuotaBytes);
        Assert.Equal([AlarmKind.Strike, AlarmKind.LowStroke], captures.Kinds);
        Assert.Equal(read.Value.FeederPath, captures.FeederPath);
    }

    [Fact]
    public void The_folder_is_enough_and_without_the_table_nothing_is_kept()
    {
        var captures = Read("folder = \"captures\"").Value!.Captures!;
        Assert.Equal((200_000_000L, TimeSpan.FromSeconds(10), TimeSpan.FromSeconds(20)), (captures.QuotaBytes, captures.Before, captures.After));
        Assert.Same(AlarmCaptureOptions.Usual, captures.Kinds);
        Assert.Equal(50_000_000L, captures.TrialQuotaBytes);
        Assert.Null(Read(null).Value!.Captures);
    }

    [Fact]
    public void All_that_is_wrong_comes_at_once_with_its_line()
    {
        var errors = Read("quota_mb = 1\nkeep = [3]\nbefore_s = 0\nalarms = [\"stroke\"]\nafter = 2").Errors;
        Assert.Equal([7, 8, 9, 10, 11, 12], errors.Select(error => error.Line).Order());
        Assert.Contains(errors, error => error.Message.Contains("over-stroke, strike, high-stroke", StringComparison.Ordinal));
    }

    private ConfigurationResult<WatchConfiguration> Read(string? table)
    {
        folder.Write("sand.feeder.toml", "[drive]\nsupply_hz = 50\nstrokes_per_cycle = 1\n[stroke]\nlow = \"1.4 mm\"\nhigh = \"1.6 mm\"\n");
        return WatchFile.Read(folder.Write("watch.toml", $"feeder = \"sand.feeder.toml\"\n[sensor]\nport = \"/dev/ttyUSB0\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n{(table is null ? "" : $"[captures]\n{table}\n")}"));
    }
}
