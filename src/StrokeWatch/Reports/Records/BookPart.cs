using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Books;
using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>The section on the machine book: what the feeder has run, its leaf sets, what was done to it and what is to be done.</summary>
internal static class BookPart
{
    private const int MostRows = 60;

    private static readonly string[] SetColumns = ["Put in", "Leaves", "By", "At", "Has run since"];
    private static readonly string[] ReminderColumns = ["What", "How it stands"];
    private static readonly string[] EntryColumns = ["Date", "About", "Entry", "By", "At"];
    private static readonly string[] CheckColumns = ["Date", "Guided check", "Found", "By", "Note"];

    /// <summary>Makes the section.</summary>
    public static RecordSection Make(RecordInput input)
    {
        const string Heading = "Machine book";
        if (input.Book is not { } book)
        {
            return new(Heading, [new RecordText("There is no machine book yet, so nothing is recorded here of hours run, leaf sets and reminders.")]);
        }

        return new(Heading, [.. Running(book), .. LeafSets(book), .. Reminders(book), .. Entries(book), .. Checks(book)]);
    }

    private static IEnumerable<RecordBlock> Running(BookSummary book)
    {
        if (book.Counters is not { } counters)
        {
            yield return new RecordText("Nothing was counted yet: strokewatch watch counts running while it measures.");
            yield break;
        }

        yield return new RecordFacts(
        [
            ("Running", BookWords.Hours(counters.Seconds)),
            ("Cycles", BookWords.Cycles(counters.Cycles)),
            ("Starts", Figure.Count(counters.Starts)),
            ("Outside the band", BookWords.Hours(counters.SecondsOutside)),
            ("Counted", $"from {RecordDates.Minute(counters.Since)} to {RecordDates.Minute(counters.Updated)}, while strokewatch watch measured"),
        ]);
    }

    private static IEnumerable<RecordBlock> LeafSets(BookSummary book)
    {
        if (book.LeafSets.Count == 0)
        {
            yield return new RecordText("No leaf set is entered.");
            yield break;
        }

        yield return new RecordText("Leaf sets", RecordTextKind.Heading);
        yield return new RecordTable(SetColumns, [.. book.LeafSets.TakeLast(MostRows).Select(set => (IReadOnlyList<string>)
        [
            RecordDates.Short(set.Entry.Utc), BookWords.Of(set.Entry), set.Entry.Who ?? "", BookWords.At(set.Entry),
            set is { Seconds: { } seconds, Cycles: { } cycles } ? $"{BookWords.Hours(seconds)}, {BookWords.Cycles(cycles)}" : "not counted",
        ])]);
    }

    private static IEnumerable<RecordBlock> Reminders(BookSummary book)
    {
        if (book.Reminders.Count == 0)
        {
            yield return new RecordText("No reminder is set.");
            yield break;
        }

        yield return new RecordText("To be done", RecordTextKind.Heading);
        yield return new RecordTable(ReminderColumns, [.. book.Reminders.Select(state => (IReadOnlyList<string>)[BookWords.Of(state.Reminder.Kind), state.Words[(state.Words.IndexOf(':', StringComparison.Ordinal) + 2)..]])]);
    }

    private static IEnumerable<RecordBlock> Entries(BookSummary book)
    {
        var entries = book.Entries.Where(entry => entry.Kind != BookEntryKind.LeafSet).ToList();
        if (entries.Count == 0)
        {
            yield break;
        }

        yield return new RecordText("What was done", RecordTextKind.Heading);
        yield return new RecordTable(EntryColumns, [.. entries.TakeLast(MostRows).Select(entry => (IReadOnlyList<string>)
            [RecordDates.Short(entry.Utc), BookWords.Of(entry.Kind), BookWords.Of(entry), entry.Who ?? "", BookWords.At(entry)])]);
        if (entries.Count > MostRows)
        {
            yield return new RecordText($"The table holds the last {Figure.Count(MostRows)} of {Figure.Count(entries.Count)} entries.", RecordTextKind.Detail);
        }
    }

    private static IEnumerable<RecordBlock> Checks(BookSummary book)
    {
        if (book.Checks.Count > 0)
        {
            yield return new RecordText("Guided checks", RecordTextKind.Heading);
            yield return new RecordTable(CheckColumns, [.. book.Checks.TakeLast(MostRows).Select(check => (IReadOnlyList<string>)
                [RecordDates.Minute(check.Utc), CheckTable.Find(check.Check)?.Title ?? check.Check, CheckTable.Find(check.Check)?.Find(check.Answer)?.Words ?? check.Answer, check.Who ?? "", check.Note ?? ""])]);
        }
    }
}
