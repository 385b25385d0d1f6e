using Serilog;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Books;

namespace StrokeWatch.Pipeline;

/// <summary>Counts what a live feeder runs into its machine book, and says once a day what the book reminds of.</summary>
/// <remarks>It is written at the desk: once a minute, at stops (not more often than every ten seconds: a feeder that doses in bursts would wear a card out) and at the end.
/// A window counts whole, also that in which the feeder is switched on or off: half a second each at 50 Hz.</remarks>
internal sealed class BookListener(BookShelf shelf, TimeProvider time, IDesk desk, ILogger log) : IChainListener
{
    private static readonly TimeSpan Between = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan AtStops = TimeSpan.FromSeconds(10);

    private RunningTally unwritten;
    private long? posted;
    private bool still;
    private bool ran;
    private bool troubled;
    private DateOnly? reminded;

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        var runs = RunningTally.Runs(window);
        unwritten = unwritten.With(window);
        var motion = window.Reading.Motion;

        // A beat of a start is one, also where the standstill before it was not seen; running that was met with is none.
        if (runs && (still || (motion == MotionState.Starting && !ran)))
        {
            unwritten = unwritten with { Starts = unwritten.Starts + 1 };
        }

        var stopped = !still && motion == MotionState.Stopped;
        ran = runs;
        still = !runs && (still || motion == MotionState.Stopped);
        if (posted is not { } before || time.GetElapsedTime(before) >= (stopped ? AtStops : Between))
        {
            Post();
        }
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
    }

    /// <inheritdoc/>
    public void Finish() => Post();

    private void Post()
    {
        var (tally, now) = (unwritten, time.GetUtcNow());
        posted = time.GetTimestamp();
        if (desk.Post(() => Write(tally, now)))
        {
            // Minus what is on its way: what comes back as unwritten is added again.
            unwritten = unwritten.Plus(new(-tally.Seconds, -tally.Cycles, -tally.Starts, -tally.SecondsOutside));
        }
    }

    /// <summary>Writes a tally at the desk; gives what is then to be said.</summary>
    private Action? Write(RunningTally tally, DateTimeOffset now)
    {
        try
        {
            var book = shelf.Open();
            var counters = tally.Empty ? book.Running.Read() : book.Running.Add(tally.Seconds, tally.Cycles, tally.Starts, tally.SecondsOutside, now);
            var words = Reminders(book, counters, now);
            return () =>
            {
                troubled = false;
                foreach (var reminder in words)
                {
                    log.Warning("Machine book: {Reminder:l}", reminder);
                }
            };
        }
        catch (BookException trouble)
        {
            return () =>
            {
                unwritten = unwritten.Plus(tally);
                if (!troubled)
                {
                    troubled = true;
                    log.Error("Machine book: {Trouble:l}; running is counted on and written as soon as it can be", trouble.Message);
                }
            };
        }
    }

    private IReadOnlyList<string> Reminders(MachineBook book, BookCounters? counters, DateTimeOffset now)
    {
        var today = DateOnly.FromDateTime(now.UtcDateTime);
        if (reminded == today)
        {
            return [];
        }

        reminded = today;
        return [.. book.Reminders.All().Select(reminder => ReminderState.Of(reminder, counters)).Where(state => state.Level != ReminderLevel.Later).Select(state => state.Words)];
    }
}
