using StrokeWatch.Outputs.Captures;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Captures;

/// <summary>Captures that somebody keeps from being removed to make room.</summary>
public sealed class CapturePinsTests : IDisposable
{
    private const string Oldest = "20260304T080000Z-strike.wav", Middle = "20260304T090000Z-over-stroke.wav", Newest = "20260304T100000Z-sensor-lost-front-2.wav";
    private static readonly DateTimeOffset Noon = new(2026, 3, 4, 12, 0, 0, TimeSpan.Zero);
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-pins-").FullName;
    private readonly AlarmCaptureOptions options;
    private readonly CapturePins pins;

    public CapturePinsTests()
    {
        options = new() { Folder = folder, QuotaBytes = 40_000, ReserveBytes = 0 };
        pins = new(options);
        foreach (var name in (string[])[Oldest, Middle, Newest])
        {
            File.WriteAllBytes(Path.Combine(folder, name), new byte[9_000]);
            File.WriteAllBytes(Path.Combine(folder, Path.ChangeExtension(name, ".feeder.toml")), new byte[500]);
        }
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_kept_capture_outlives_younger_ones_and_goes_once_it_is_released()
    {
        Assert.Null(pins.Keep(Oldest, "Tom", "the clamp that broke", Noon));
        Assert.Equal((CaptureKeep.Kept, "2026-03-04 12:00 UTC, Tom: the clamp that broke"), (pins.Of(Oldest), pins.Words(Oldest)));
        Assert.Equal([Middle], new CaptureFolder(options).MakeRoom(15_000));
        Assert.Equal("20260304T080000Z-strike.wav is kept already", pins.Keep(Oldest, "Olga", "", Noon));
        Assert.Null(pins.Release(Oldest));
        Assert.Equal((CaptureKeep.No, null), (pins.Of(Oldest), pins.Words(Oldest)));
        Assert.Equal([Oldest], new CaptureFolder(options).MakeRoom(25_000));
        Assert.Equal($"{Newest} is not kept", pins.Release(Newest));
    }

    [Fact]
    public void Kept_ones_take_half_of_the_quota_at_most_so_that_the_next_alarm_finds_room()
    {
        Assert.Null(pins.Keep(Oldest, "Tom", "", Noon));
        Assert.Null(pins.Keep(Middle, "Tom", "", Noon));
        Assert.Contains("more than half of the quota", pins.Keep(Newest, "Tom", "", Noon), StringComparison.Ordinal);
        Assert.Equal([Newest], new CaptureFolder(options).MakeRoom(20_000));
        var room = new CaptureFolder(options).Room()!;
        Assert.Equal((2, 2), (room.Captures, room.Kept));
        Assert.Equal(room.Bytes, room.KeptBytes);
    }

    [Fact]
    public void What_is_no_waveform_of_an_alarm_or_of_a_trial_or_kept_by_the_configuration_is_never_removed_and_says_so()
    {
        Assert.Equal(CaptureKeep.Always, pins.Of("sand.measured-20260304T080000Z.wav"));
        Assert.Contains("is no waveform of an alarm", pins.Release("demo.wav"), StringComparison.Ordinal);
        var configured = new CapturePins(options with { Keep = ["20260304T080000Z-strike"] });
        Assert.Equal(CaptureKeep.Always, configured.Of(Oldest));
        Assert.Contains("take it out of `keep`", configured.Release(Oldest), StringComparison.Ordinal);
    }

    [Fact]
    public void One_that_is_removed_between_the_question_and_the_answer_leaves_nothing_behind()
    {
        const string Gone = "20260304T070000Z-strike.wav";
        Assert.Contains("was removed just now", pins.Keep(Gone, "Tom", "", Noon), StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(folder, "20260304T070000Z-strike.keep")));
    }
}
