namespace StrokeWatch.Outputs.Book;

/// <summary>A tuning session as it stands in the book.</summary>
/// <param name="Id">Its number; rises and is never used twice.</param>
/// <param name="Feeder">The feeder's name.</param>
/// <param name="Started">When it was begun.</param>
/// <param name="Ended">When it came to its end; null while it is open.</param>
/// <param name="State">How it stands.</param>
/// <param name="Who">Who works on it; null where nobody said.</param>
/// <param name="Step">The step whose question is to be answered next.</param>
/// <param name="Memory">What the session must know beside its step; its own words.</param>
/// <param name="Turn">How many answers were taken: two who drive one session are told apart by it.</param>
public sealed record BookSession(
    long Id, string Feeder, DateTimeOffset Started, DateTimeOffset? Ended, BookSessionState State, string? Who, string Step, string Memory, long Turn);
