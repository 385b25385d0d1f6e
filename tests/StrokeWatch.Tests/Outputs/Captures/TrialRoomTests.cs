using StrokeWatch.Outputs.Captures;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Captures;

/// <summary>The quota of what tuning sessions leave.</summary>
public sealed class TrialRoomTests : IDisposable
{
    private const string First = "sand.trial-20260304T080000Z", Second = "sand.trial-20260304T090000Z", Third = "sand.trial-20260304T100000Z", Other = "cullet.trial-20260304T070000Z", Alarm = "20260304T070000Z-strike";
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-trials-").FullName;

    public TrialRoomTests()
    {
        foreach (var stem in (string[])[First, Second + "-front-left", Second + "-rear", Third, Other, Alarm])
        {
            File.WriteAllBytes(Path.Combine(folder, stem + ".wav"), new byte[stem.Contains("090000", StringComparison.Ordinal) ? 5_000 : 10_000]);
        }
    }

    private TrialRoom Room => new(folder, 40_000, "sand") { ReserveBytes = 0 };

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void The_oldest_measurement_goes_first_with_all_of_its_sensors_and_what_is_another_s_stays()
    {
        Assert.Empty(Room.Make(10_000, []));
        Assert.Equal([First + ".wav"], Room.Make(20_000, []));
        Assert.Equal([Second + "-front-left.wav", Second + "-rear.wav"], Room.Make(30_000, []).Order());
        Assert.Equal([Alarm, Other, Third], Left());
    }

    [Fact]
    public void What_is_in_use_stays_and_where_nothing_else_may_go_it_says_what_to_do()
    {
        Assert.Equal([Third + ".wav"], Room.Make(20_000, [First + ".wav", Second + "-front-left.wav"]));
        var full = Assert.Throws<IOException>(() => Room.Make(30_000, [First + ".wav", Second + "-front-left.wav"]));
        Assert.Contains("raise `trials_mb`", full.Message, StringComparison.Ordinal);
        Assert.Equal([Alarm, Other, First, Second + "-front-left", Second + "-rear"], Left());
        Assert.Throws<IOException>(() => Room.Make(31_000, [First + ".wav"]));
        Assert.Equal([Alarm, Other, First, Second + "-front-left", Second + "-rear"], Left());
    }

    [Fact]
    public void One_that_somebody_keeps_stays_and_kept_ones_take_half_of_the_quota_at_most()
    {
        var pins = new CapturePins(new() { Folder = folder, TrialQuotaBytes = 40_000, QuotaBytes = 10_000 });
        Assert.Null(pins.Keep(First + ".wav", "Tom", "before the new stack", new(2026, 3, 4, 12, 0, 0, TimeSpan.Zero)));
        Assert.Equal((CaptureKeep.Kept, CaptureKeep.No), (pins.Of(First + ".wav"), pins.Of(Third + ".wav")));
        Assert.Equal([Second + "-front-left.wav", Second + "-rear.wav"], Room.Make(19_000, []).Order());
        Assert.Contains("more than half of their quota", pins.Keep(Third + ".wav", "Tom", "", DateTimeOffset.UnixEpoch), StringComparison.Ordinal);
        Assert.Null(pins.Release(First + ".wav"));
        Assert.Equal([First + ".wav", Third + ".wav"], Room.Make(40_000, []));
    }

    [Fact]
    public void What_a_kill_left_half_written_counts_and_goes()
    {
        File.Move(Path.Combine(folder, First + ".wav"), Path.Combine(folder, First + ".wav.part"));
        Assert.Empty(Room.Make(20_000, []));
        Assert.False(File.Exists(Path.Combine(folder, First + ".wav.part")));
    }

    [Fact]
    public void On_a_disk_that_is_nearly_full_the_oldest_goes_and_nothing_where_that_does_not_help()
    {
        long Free() => 96_000 - new DirectoryInfo(folder).GetFiles().Sum(file => file.Length);
        TrialRoom Near(long reserve) => new(folder, 40_000, "sand") { ReserveBytes = reserve, Free = Free };

        // 46,000 bytes are free; 30,000 more may go.
        Assert.Contains("is full", Assert.Throws<IOException>(() => Near(67_000).Make(10_000, [])).Message, StringComparison.Ordinal);
        Assert.Equal([Alarm, Other, First, Second + "-front-left", Second + "-rear", Third], Left());
        Assert.Equal([First + ".wav"], Near(40_000).Make(10_000, []));
        Assert.Contains("is full", Assert.Throws<IOException>(() => Near(16_000_000).Make(1, [])).Message, StringComparison.Ordinal);
    }

    private IEnumerable<string> Left() => Directory.GetFiles(folder).Select(path => Path.GetFileNameWithoutExtension(path)!).Order(StringComparer.Ordinal);
}
