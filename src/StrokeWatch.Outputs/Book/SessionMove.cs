namespace StrokeWatch.Outputs.Book;

/// <summary>One answer in a tuning session and all that comes of it, written as one: all of it or nothing.</summary>
public sealed record SessionMove
{
    /// <summary>Gets when it was given.</summary>
    public required DateTimeOffset Utc { get; init; }

    /// <summary>Gets the step that was answered.</summary>
    public required string Answered { get; init; }

    /// <summary>Gets the answer.</summary>
    public required string Answer { get; init; }

    /// <summary>Gets the step to go on with.</summary>
    public required string Step { get; init; }

    /// <summary>Gets what the session must know beside its step.</summary>
    public required string Memory { get; init; }

    /// <summary>Gets who works on it.</summary>
    public string? Who { get; init; }

    /// <summary>Gets how the session stands now.</summary>
    public BookSessionState State { get; init; }

    /// <summary>Gets the trial that was measured; its session is filled in by the book.</summary>
    public BookTrial? Trial { get; init; }

    /// <summary>Gets why the session's last trial does not count; null where it does.</summary>
    public string? LeavesOutLast { get; init; }

    /// <summary>Gets what was found at a guided check; its session is filled in by the book.</summary>
    public BookCheckAnswer? Check { get; init; }

    /// <summary>Gets the entry that the machine book takes on; its session is filled in by the book.</summary>
    public BookEntry? Entry { get; init; }
}
