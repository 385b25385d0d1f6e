namespace StrokeWatch.Outputs.Book;

/// <summary>What somebody found at a guided check.</summary>
/// <param name="Id">Its number; 0 before it is written.</param>
/// <param name="Session">The tuning session it was made in; null outside of one.</param>
/// <param name="Utc">When it was found.</param>
/// <param name="Check">The check's id.</param>
/// <param name="Answer">The answer's id.</param>
/// <param name="Who">Who found it; null where nobody said.</param>
/// <param name="Note">A note; null for none.</param>
public sealed record BookCheckAnswer(long Id, long? Session, DateTimeOffset Utc, string Check, string Answer, string? Who, string? Note);
