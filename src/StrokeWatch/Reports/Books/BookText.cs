using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Html;
using StrokeWatch.Reports.Records;

namespace StrokeWatch.Reports.Books;

/// <summary>Writes a machine book for people; dates are UTC.</summary>
internal static class BookText
{
    /// <summary>Writes it.</summary>
    public static void Write(TextWriter output, string feeder, BookSummary book)
    {
        output.WriteLine($"{feeder}, machine book {book.File} (dates in UTC)");
        output.WriteLine($"  running    {Running(book.Counters)}");
        foreach (var (set, seconds, cycles) in book.LeafSets.TakeLast(1))
        {
            var run = seconds is { } time && cycles is { } count ? $"; has run {BookWords.Hours(time)}, {BookWords.Cycles(count)}" : "; nothing was counted since";
            output.WriteLine($"  leaf set   {BookWords.Of(set)}, put in {BookWords.Day(set.Utc)}{By(set.Who)}{run}");
        }

        foreach (var reminder in book.Reminders)
        {
            output.WriteLine($"  reminder   {reminder.Words}");
        }

        if (book.Reminders.Count == 0)
        {
            output.WriteLine("  reminder   none set; strokewatch book remind sets one");
        }

        foreach (var entry in book.Entries)
        {
            output.WriteLine($"  {RecordDates.Minute(entry.Utc)}  {BookNames.Of(entry.Kind),-11}  {BookWords.Of(entry)}{By(entry.Who)} ({BookWords.When(entry)})");
        }

        if (book.Session is { } session)
        {
            output.WriteLine($"  tuning     {Figure.Count(book.Sessions)} session{(book.Sessions == 1 ? "" : "s")}; the last with trials was begun {BookWords.Day(session.Started)}{By(session.Who)}, is {BookNames.Of(session.State)}, has {Figure.Count(book.Trials.Count)} trial{(book.Trials.Count == 1 ? "" : "s")}");
        }
    }

    /// <summary>Gives what was counted in one line.</summary>
    public static string Running(BookCounters? counters) => counters is null
        ? "nothing counted yet; strokewatch watch counts while it runs"
        : $"{BookWords.Hours(counters.Seconds)}, {BookWords.Cycles(counters.Cycles)}, {Figure.Count(counters.Starts)} start{(counters.Starts == 1 ? "" : "s")}, {BookWords.Hours(counters.SecondsOutside)} outside the band; "
            + $"counted since {RecordDates.Minute(counters.Since)}, last {RecordDates.Minute(counters.Updated)}";

    private static string By(string? who) => who is null ? "" : $" by {who}";
}
