namespace StrokeWatch.Outputs.Book;

/// <summary>An answer to one step of a session, for the record.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Session">The session.</param>
/// <param name="Utc">When it was given.</param>
/// <param name="Step">The step.</param>
/// <param name="Answer">The answer.</param>
/// <param name="Who">Who gave it; null where nobody said.</param>
public sealed record BookStepAnswer(long Id, long Session, DateTimeOffset Utc, string Step, string Answer, string? Who);
