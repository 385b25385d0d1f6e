using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Reports.Books;

/// <summary>A reminder as it stands: due, soon or later, and by how much.</summary>
/// <param name="Reminder">The reminder.</param>
/// <param name="SecondsLeft">The running in s that is left; negative where it is over; null where the reminder does not go by hours.</param>
/// <param name="CyclesLeft">The cycles that are left; null where it does not go by cycles.</param>
/// <param name="Level">How near it is; that of whichever comes first.</param>
internal sealed record ReminderState(BookReminder Reminder, double? SecondsLeft, double? CyclesLeft, ReminderLevel Level)
{
    private const double SoonShare = 0.1;

    /// <summary>Gets it in words.</summary>
    public string Words => $"{BookWords.Of(Reminder.Kind)}: {Say()} (every {Every()}; last {BookWords.Day(Reminder.LastUtc)})";

    /// <summary>Works it out; what nobody counted has not run.</summary>
    public static ReminderState Of(BookReminder reminder, BookCounters? counters)
    {
        var seconds = reminder.EverySeconds + reminder.LastSeconds - (counters?.Seconds ?? 0);
        var cycles = reminder.EveryCycles + reminder.LastCycles - (counters?.Cycles ?? 0);
        var level = Level(seconds, reminder.EverySeconds);
        var other = Level(cycles, reminder.EveryCycles);
        return new(reminder, seconds, cycles, level > other ? level : other);

        static ReminderLevel Level(double? left, double? every) => left <= 0 ? ReminderLevel.Due : left <= SoonShare * every ? ReminderLevel.Soon : ReminderLevel.Later;
    }

    private string Say()
    {
        // Once one of the two is over, how much the other has left is of no use.
        bool Counts(double left) => Level != ReminderLevel.Due || left <= 0;
        var left = new[]
        {
            SecondsLeft is { } seconds && Counts(seconds) ? Left(seconds, BookWords.Hours) : null,
            CyclesLeft is { } cycles && Counts(cycles) ? Left(cycles, BookWords.Cycles) : null,
        }.OfType<string>();
        return $"{Level switch { ReminderLevel.Due => "DUE, ", ReminderLevel.Soon => "soon, ", _ => "" }}{string.Join(", ", left)}";
    }

    private static string Left(double left, Func<double, string> words) => left <= 0 ? $"{words(-left)} over" : $"in {words(left)}";

    private string Every() => string.Join(" or ", new[]
    {
        Reminder.EverySeconds is { } seconds ? BookWords.Hours(seconds) : null,
        Reminder.EveryCycles is { } cycles ? BookWords.Cycles(cycles) : null,
    }.OfType<string>());
}
