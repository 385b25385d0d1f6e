using StrokeWatch.Reports.Books;

namespace StrokeWatch.Commands;

/// <summary>The command <c>book remind</c>.</summary>
internal sealed record BookRemindCommand
{
    private const double SecondsPerHour = 3600;

    /// <summary>Gets the feeder file.</summary>
    public required string FeederFile { get; init; }

    /// <summary>Gets the book's file; null for the usual one.</summary>
    public string? Book { get; init; }

    /// <summary>Gets the word of what is to be done.</summary>
    public required string Kind { get; init; }

    /// <summary>Gets the hours of running between two reminders; null for none.</summary>
    public double? Hours { get; init; }

    /// <summary>Gets the cycles between two reminders; null for none.</summary>
    public double? Cycles { get; init; }

    /// <summary>Gets whether the reminder is to go.</summary>
    public bool Off { get; init; }

    /// <summary>Sets the reminder and shows it.</summary>
    public int Run(Surroundings surroundings)
    {
        if (BookAccess.Kind("remind", Kind, surroundings) is not { } kind)
        {
            return CommandLine.Bad;
        }

        if (Off == (Hours is not null || Cycles is not null))
        {
            surroundings.Error.WriteLine($"strokewatch book remind: {(Off ? "--off stands beside an interval; give one or the other" : "the interval is missing; add --every-hours 500, --every-cycles 100e6, or --off")}");
            return CommandLine.Bad;
        }

        if (BaselineOutcome.Feeder(FeederFile, surroundings) is not { } feeder)
        {
            return CommandLine.Bad;
        }

        return BookAccess.Say(surroundings, () =>
        {
            using var book = BookAccess.Open(Book, FeederFile, feeder.Name, surroundings.Time);
            book.Reminders.Set(kind, Hours * SecondsPerHour, Cycles, surroundings.Time.GetUtcNow());
            var set = book.Reminders.All().FirstOrDefault(reminder => reminder.Kind == kind);
            surroundings.Output.WriteLine($"{book.FilePath}: {feeder.Name}, {(set is null ? $"no reminder of {BookWords.Of(kind)} any more" : ReminderState.Of(set, book.Running.Read()).Words)}");
            return CommandLine.Well;
        });
    }
}
