using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>What comes of an answer.</summary>
internal sealed record SessionTurn
{
    /// <summary>Gets the state to go on with; null where the same question stands.</summary>
    public SessionState? Next { get; init; }

    /// <summary>Gets why the answer is none, in one line; null where it is one.</summary>
    public string? Refused { get; init; }

    /// <summary>Gets what is said in reply.</summary>
    public IReadOnlyList<string> Said { get; init; } = [];

    /// <summary>Gets the measurement that must be made; the question stands until it is.</summary>
    public MeasurementWish? Wish { get; init; }

    /// <summary>Gets the trial to keep.</summary>
    public BookTrial? Trial { get; init; }

    /// <summary>Gets why the last trial does not count; null where it does.</summary>
    public string? LeavesOutLast { get; init; }

    /// <summary>Gets what was found at a guided check.</summary>
    public BookCheckAnswer? Check { get; init; }

    /// <summary>Gets the entry for the machine book.</summary>
    public BookEntry? Entry { get; init; }

    /// <summary>Gets whether the baseline is to be made of the last trial.</summary>
    public bool Baseline { get; init; }

    /// <summary>Gets whether the person leaves.</summary>
    public bool Leaves { get; init; }

    /// <summary>Gets whether the session has come to its end.</summary>
    public bool Done { get; init; }

    /// <summary>Refuses an answer.</summary>
    public static SessionTurn Refuse(string why) => new() { Refused = why };
}
