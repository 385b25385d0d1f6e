using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Books;
using Xunit;

namespace StrokeWatch.Tests.Reports.Books;

public sealed class ReminderStateTests
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 26, 12, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(100, "Later", "in 400.0 h")]
    [InlineData(449, "Later", "in 51.0 h")]
    [InlineData(450, "Soon", "soon, in 50.0 h")]
    [InlineData(500, "Due", "DUE, 0.0 h over")]
    [InlineData(1723.45, "Due", "DUE, 1\u202F223.4 h over")]
    public void A_reminder_by_hours_says_by_how_much(double hours, string level, string words)
    {
        var state = ReminderState.Of(new(BookEntryKind.LeafSet, 500 * 3600, null, Noon, 0, 0), Counters(hours, 1e6));
        Assert.Equal(level, state.Level.ToString());
        Assert.Equal($"leaf springs: {words} (every 500.0 h; last 2026-11-26)", state.Words);
    }

    [Fact]
    public void Of_hours_and_cycles_whichever_comes_first_counts_from_when_it_was_last_done()
    {
        var reminder = new BookReminder(BookEntryKind.Coil, 1000 * 3600, 50e6, Noon, 200 * 3600, 30e6);
        Assert.Equal(ReminderLevel.Later, ReminderState.Of(reminder, Counters(300, 60e6)).Level);
        var soon = ReminderState.Of(reminder, Counters(300, 76e6));
        Assert.Equal(ReminderLevel.Soon, soon.Level);
        Assert.Equal("coil assembly: soon, in 900.0 h, in 4.0 million cycles (every 1\u202F000.0 h or 50.0 million cycles; last 2026-11-26)", soon.Words);
        var due = ReminderState.Of(reminder, Counters(1200, 31e6));
        Assert.Equal(ReminderLevel.Due, due.Level);
        Assert.StartsWith("coil assembly: DUE, 0.0 h over (", due.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void What_nobody_counted_has_not_run() =>
        Assert.Equal((ReminderLevel.Later, 3600), (ReminderState.Of(new(BookEntryKind.Cleaning, 3600, null, Noon, 0, 0), null).Level, ReminderState.Of(new(BookEntryKind.Cleaning, 3600, null, Noon, 0, 0), null).SecondsLeft));

    [Fact]
    public void Hours_and_cycles_never_claim_more_than_was_counted()
    {
        Assert.Equal("0.9 h", BookWords.Hours(3599));
        Assert.Equal("999\u202F999 cycles", BookWords.Cycles(999_999.9));
        Assert.Equal("1.9 million cycles", BookWords.Cycles(1_999_999));
    }

    private static BookCounters Counters(double hours, double cycles) => new(hours * 3600, cycles, 3, 0, Noon, Noon);
}
