using System.Text.Json.Nodes;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Page;
using StrokeWatch.Pipeline.Alarms;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Page;

public sealed class LiveBoardTests
{
    private static readonly WindowReading Good = new()
    {
        StartSeconds = 0,
        LengthSeconds = 0.5,
        Quality = WindowQuality.Good,
        Motion = MotionState.Running,
        StrokeMetres = 1.7e-3,
        UncertaintyMetres = 0.02e-3,
        StrikeScore = 0.1,
    };

    private readonly FakeTimeProvider time = new(new DateTimeOffset(2026, 3, 4, 8, 0, 0, TimeSpan.Zero));
    private readonly LiveFeed feed = new();
    private readonly LiveBoard board;
    private IReadOnlyList<AlarmView> alarms = [];

    public LiveBoardTests() => board = new(
        new()
        {
            Name = "Sand feeder",
            Drive = new(50, 1, Free: false),
            Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.9)),
        },
        time, feed, () => alarms, () => new(StoreState.Working, null, 0, 0, 0, 0, 0, null));

    [Fact]
    public void Before_the_first_reading_nothing_is_0_and_the_reason_is_said()
    {
        var status = Status();
        Assert.Null(status["stroke"]!["pp_mm"]);
        Assert.Null(status["age_s"]);
        Assert.True((bool)status["stale"]!);
        Assert.Contains("nothing has been measured", (string)status["stroke"]!["reason"]!, StringComparison.Ordinal);
        Assert.DoesNotContain("strokewatch_stroke_meters{", MetricsText.Of(board.Now, feed), StringComparison.Ordinal);
    }

    [Fact]
    public void A_reading_is_old_after_two_seconds_and_gaps_do_not_make_it_young()
    {
        board.Window(new(Good, Verdict.InBand));
        Assert.False((bool)Status()["stale"]!);
        time.Advance(TimeSpan.FromSeconds(1.5));
        board.Window(new(new() { StartSeconds = 1, LengthSeconds = 0.5, Quality = WindowQuality.Gap, Motion = MotionState.Unknown, Reason = "samples are missing" }, Verdict.Unmeasurable));
        var gap = Status();
        Assert.Equal((1.5, false, "samples are missing"), ((double)gap["age_s"]!, (bool)gap["stale"]!, (string)gap["stroke"]!["reason"]!));
        Assert.Null(gap["stroke"]!["pp_mm"]);
        time.Advance(TimeSpan.FromSeconds(0.6));
        Assert.True((bool)Status()["stale"]!);
        Assert.Contains("strokewatch_reading_age_seconds{feeder=\"Sand feeder\"} 2.1\n", MetricsText.Of(board.Now, feed), StringComparison.Ordinal);
    }

    [Fact]
    public void A_window_that_a_silence_ended_is_no_younger_than_its_samples()
    {
        var silent = new LiveBoard(board.Now.Feeder, time, feed, () => alarms, () => board.Now.Store) { SampleAge = () => 0.4 };
        time.Advance(TimeSpan.FromSeconds(5));
        silent.Window(new(Good, Verdict.InBand));
        Assert.Equal(0.4, silent.Now.AgeSeconds!.Value, 6);
        time.Advance(TimeSpan.FromSeconds(1.4));
        Assert.True(silent.Now.Stale);
    }

    [Fact]
    public void A_stroke_that_does_not_count_is_not_shown()
    {
        board.Window(new(Good with { Quality = WindowQuality.Transient, Reason = "the feeder is starting" }, Verdict.Unmeasurable));
        Assert.Null(Status()["stroke"]!["pp_mm"]);
        Assert.Equal("the feeder is starting", (string)Status()["stroke"]!["reason"]!);
    }

    [Fact]
    public void A_strike_that_cannot_be_ruled_out_is_told_beside_none_heard()
    {
        foreach (var possible in new[] { false, true })
        {
            board.Window(new(Good with { StrikePossible = possible }, Verdict.InBand));
            var strike = Status()["strike"]!;
            Assert.Equal((false, possible), ((bool)strike["found"]!, (bool)strike["possible"]!));
            Assert.Contains($"strokewatch_strike_possible{{feeder=\"Sand feeder\"}} {(possible ? 1 : 0)}\n", MetricsText.Of(board.Now, feed), StringComparison.Ordinal);
        }

        board.Window(new(Good with { StrikeScore = null }, Verdict.InBand));
        Assert.DoesNotContain("strokewatch_strike_possible{", MetricsText.Of(board.Now, feed), StringComparison.Ordinal);
    }

    [Fact]
    public void Who_is_late_hears_of_every_window_by_its_own_number()
    {
        var follower = feed.Join()!;
        for (var i = 1; i <= 3; i++)
        {
            board.Window(new(Good with { StrokeMetres = i * 1e-3 }, Verdict.InBand));
        }

        for (var i = 1; i <= 3; i++)
        {
            Assert.True(follower.Reader.TryRead(out var frame));
            var told = JsonNode.Parse(System.Text.Encoding.UTF8.GetString(frame!.Bytes.Span).Split("data: ")[1])!;
            Assert.Equal((i, (double)i), ((int)told["windows"]!, (double)told["stroke"]!["pp_mm"]!));
        }
    }

    [Fact]
    public void Those_who_follow_are_told_when_an_alarm_takes_a_step_and_only_then()
    {
        var follower = feed.Join()!;
        board.Look();
        Assert.True(follower.Reader.TryRead(out _));
        board.Look();
        Assert.False(follower.Reader.TryRead(out _));
        alarms = [new(new(AlarmKind.OverStroke), AlarmPriority.High, AlarmState.Unacknowledged, AlarmState.Unacknowledged, time.GetUtcNow(), "measurement", null, "OVER-STROKE")];
        board.Look();
        Assert.True(follower.Reader.TryRead(out var frame));
        Assert.Contains("\"id\":\"over-stroke\"", System.Text.Encoding.UTF8.GetString(frame!.Bytes.Span), StringComparison.Ordinal);
    }

    private JsonNode Status() => JsonNode.Parse(PageJson.Bytes(writer => StatusJson.Write(writer, board.Now)).Span)!;
}
