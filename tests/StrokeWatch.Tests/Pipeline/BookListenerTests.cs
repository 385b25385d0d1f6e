using Microsoft.Extensions.Time.Testing;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Pipeline;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>Running counted into the machine book by a clock that the test moves on, a window of a second at a time.</summary>
public sealed class BookListenerTests : ILogEventSink, IDisposable
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 26, 12, 0, 0, TimeSpan.Zero);
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-book-").FullName;
    private readonly FakeTimeProvider clock = new(Noon);
    private readonly List<string> logged = [];
    private readonly InlineDesk desk = new();

    private string Path => System.IO.Path.Combine(folder, "shelf", "cullet.book.sqlite");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    void ILogEventSink.Emit(LogEvent logEvent) => logged.Add(logEvent.RenderMessage(System.Globalization.CultureInfo.InvariantCulture));

    [Fact]
    public void Hours_cycles_starts_and_hours_outside_the_band_are_those_of_the_windows()
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(Path)!);
        using (var shelf = new BookShelf(Path, clock))
        {
            var listener = Listener(shelf);
            Play(listener, 30, MotionState.Running, Verdict.InBand);      // ran already: no start
            Play(listener, 10, MotionState.Stopped, Verdict.Stopped);
            Play(listener, 1, MotionState.Starting, Verdict.Unmeasurable);
            Play(listener, 49, MotionState.Running, Verdict.High);
            Play(listener, 1, MotionState.CoastingDown, Verdict.Unmeasurable);
            Play(listener, 20, MotionState.Stopped, Verdict.Stopped);
            Play(listener, 5, MotionState.Running, Verdict.OverStroke);
            Play(listener, 7, MotionState.Unknown, Verdict.Unmeasurable);
            listener.Finish();
        }

        var counters = Counters()!;
        Assert.Equal((85, 1, 54), (counters.Seconds, counters.Starts - 1, counters.SecondsOutside));
        Assert.Equal(85 * 60.0, counters.Cycles, 6);
        Assert.Equal((Noon.AddSeconds(1), clock.GetUtcNow()), (counters.Since, counters.Updated));
    }

    [Fact]
    public void A_start_is_counted_also_where_the_standstill_before_it_was_not_seen()
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(Path)!);
        using var shelf = new BookShelf(Path, clock);
        var listener = Listener(shelf);
        Play(listener, 1, MotionState.Unknown, Verdict.Unmeasurable);
        Play(listener, 2, MotionState.Starting, Verdict.Unmeasurable);
        Play(listener, 9, MotionState.Running, Verdict.InBand);
        Play(listener, 1, MotionState.Starting, Verdict.Unmeasurable);
        Play(listener, 9, MotionState.Running, Verdict.InBand);
        listener.Finish();
        Assert.Equal(1, Counters()!.Starts);
    }

    [Fact]
    public void It_is_written_once_a_minute_and_a_kill_at_any_moment_loses_less_than_that()
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(Path)!);
        using var shelf = new BookShelf(Path, clock);
        var listener = Listener(shelf);
        var writes = new HashSet<DateTimeOffset>();
        for (var second = 1; second <= 600; second++)
        {
            Play(listener, 1, MotionState.Running, Verdict.InBand);
            var written = Counters();
            Assert.InRange(written?.Seconds ?? 0, second - 60, second);
            writes.Add(written?.Updated ?? default);
        }

        Assert.InRange(writes.Count, 9, 11);
    }

    [Fact]
    public void Stops_are_written_but_not_every_one_of_a_feeder_that_doses_in_bursts()
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(Path)!);
        using var shelf = new BookShelf(Path, clock);
        var listener = Listener(shelf);
        Play(listener, 12, MotionState.Running, Verdict.InBand);
        Play(listener, 1, MotionState.Stopped, Verdict.Stopped);
        Assert.Equal(12, Counters()!.Seconds);
        var writes = new HashSet<DateTimeOffset>();
        for (var burst = 0; burst < 60; burst++)
        {
            Play(listener, 2, MotionState.Running, Verdict.InBand);
            Play(listener, 1, MotionState.Stopped, Verdict.Stopped);
            writes.Add(Counters()!.Updated);
        }

        Assert.InRange(writes.Count, 10, 18);
        listener.Finish();
        Assert.Equal((132, 61), (Counters()!.Seconds, Counters()!.Starts + 1));
    }

    [Fact]
    public void A_book_that_cannot_be_written_is_told_once_and_what_ran_meanwhile_is_written_later()
    {
        using var shelf = new BookShelf(Path, clock);
        var listener = Listener(shelf);
        Play(listener, 300, MotionState.Running, Verdict.InBand);
        Assert.Contains("cullet.book.sqlite", Assert.Single(logged), StringComparison.Ordinal);
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(Path)!);
        Play(listener, 60, MotionState.Running, Verdict.InBand);
        listener.Finish();
        Assert.Equal(360, Counters()!.Seconds);
        Assert.Single(logged);
    }

    [Fact]
    public void What_is_due_or_soon_is_said_at_the_start_and_once_a_day()
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(Path)!);
        using (var book = MachineBook.Open(Path, clock))
        {
            book.Reminders.Set(BookEntryKind.LeafSet, 3600 * 500, null, clock.GetUtcNow());
            book.Reminders.Set(BookEntryKind.Cleaning, 3600, null, clock.GetUtcNow());
            book.Running.Add(3600 * 1.5, 1, 0, 0, clock.GetUtcNow());
        }

        using var shelf = new BookShelf(Path, clock);
        var listener = Listener(shelf);
        Play(listener, 600, MotionState.Running, Verdict.InBand);
        Assert.Contains("cleaning: DUE, 0.5 h over (every 1.0 h; last 2026-11-26)", Assert.Single(logged), StringComparison.Ordinal);
        clock.Advance(TimeSpan.FromHours(23));
        Play(listener, 600, MotionState.Running, Verdict.InBand);
        Assert.Equal(2, logged.Count);
    }

    private BookListener Listener(BookShelf shelf) => new(shelf, clock, desk, new LoggerConfiguration().WriteTo.Sink(this).CreateLogger());

    private BookCounters? Counters()
    {
        using var book = MachineBook.OpenReader(Path);
        return book.Running.Read();
    }

    private void Play(BookListener listener, int seconds, MotionState motion, Verdict verdict)
    {
        for (var i = 0; i < seconds; i++)
        {
            clock.Advance(TimeSpan.FromSeconds(1));
            listener.Window(new(new() { StartSeconds = 0, LengthSeconds = 1, Quality = WindowQuality.Good, Motion = motion, FrequencyHz = 60 }, verdict));
        }
    }
}
