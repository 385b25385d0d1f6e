namespace StrokeWatch.Session.Steps;

/// <summary>A step that only asks for a confirmation; Enter alone is none where a life may hang on it.</summary>
internal sealed class ConfirmStep : ISessionStep
{
    /// <inheritdoc/>
    public required string Id { get; init; }

    /// <summary>Gets what it is about.</summary>
    public required string Title { get; init; }

    /// <summary>Gets what is said.</summary>
    public required IReadOnlyList<string> Text { get; init; }

    /// <summary>Gets what is confirmed.</summary>
    public required string Confirms { get; init; }

    /// <summary>Gets whether Enter confirms.</summary>
    public bool Enter { get; init; }

    /// <summary>Gets whether the guided checks may be gone to from it.</summary>
    public bool CanCheck { get; init; } = true;

    /// <summary>Gets why it is asked.</summary>
    public required string Explain { get; init; }

    /// <summary>Gets where it leads.</summary>
    public required Func<SessionState, SessionState> Then { get; init; }

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new() { Id = Id, Title = Title, Text = Text, Choices = [new("confirmed", Confirms, Enter)], Explain = Explain, CanCheck = CanCheck };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => new() { Next = Then(scene.State) };
}
