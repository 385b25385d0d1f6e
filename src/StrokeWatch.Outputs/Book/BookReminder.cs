namespace StrokeWatch.Outputs.Book;

/// <summary>A reminder by hours of running, by cycles, or by whichever comes first; one a kind of entry, and an entry of its kind starts it anew.</summary>
/// <param name="Kind">What is to be done.</param>
/// <param name="EverySeconds">After how much running in s; null for never.</param>
/// <param name="EveryCycles">After how many cycles; null for never.</param>
/// <param name="LastUtc">When it was last done, or the reminder was set.</param>
/// <param name="LastSeconds">The running in s at that moment.</param>
/// <param name="LastCycles">The cycles at that moment.</param>
public sealed record BookReminder(BookEntryKind Kind, double? EverySeconds, double? EveryCycles, DateTimeOffset LastUtc, double LastSeconds, double LastCycles);
