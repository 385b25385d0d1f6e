namespace StrokeWatch.Session;

/// <summary>A question of the session as it is put to a person, on a terminal or a page.</summary>
internal sealed record SessionStep
{
    /// <summary>The keys of the choices, in order; the tenth is 0.</summary>
    public const string Keys = "1234567890";

    /// <summary>Gets its id, which never changes.</summary>
    public required string Id { get; init; }

    /// <summary>Gets what it is about, in a few words.</summary>
    public required string Title { get; init; }

    /// <summary>Gets what is said before the question, a sentence or line each.</summary>
    public IReadOnlyList<string> Text { get; init; } = [];

    /// <summary>Gets the answers to choose from, their keys 1, 2, 3 in order; empty where words are typed, or where the session is over.</summary>
    public IReadOnlyList<SessionChoice> Choices { get; init; } = [];

    /// <summary>Gets what is to be typed, where no choice is offered; null where nothing is asked.</summary>
    public string? Asks { get; init; }

    /// <summary>Gets what Enter alone stands for where words are typed; null where it stands for nothing.</summary>
    public string? EnterMeans { get; init; }

    /// <summary>Gets why it is asked.</summary>
    public required string Explain { get; init; }

    /// <summary>Gets whether it is said before and instead of anything else.</summary>
    public bool Urgent { get; init; }

    /// <summary>Gets whether one may go back from it.</summary>
    public bool CanGoBack { get; init; } = true;

    /// <summary>Gets whether the guided checks may be gone to from it.</summary>
    public bool CanCheck { get; init; } = true;

    /// <summary>Gets whether the session is over.</summary>
    public bool Over => Choices.Count == 0 && Asks is null;
}
