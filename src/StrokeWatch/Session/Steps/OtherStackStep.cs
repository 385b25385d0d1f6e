namespace StrokeWatch.Session.Steps;

/// <summary>Asks for a stack other than the one that is proposed.</summary>
internal sealed class OtherStackStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.OtherStack;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Another stack",
        Text = ["Nobody has worked out whether this stack stays below the limit: small steps, and stand by the switch."],
        Asks = "the rear stack to put in, such as 4x4.0 1x3.0",
        Explain = "Where the leaves at hand are others than the feeder file says, or experience says otherwise. The front stack stays.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => RearStep.Read(answer, scene.Feeder, out var trouble) is { } stack
        ? new() { Next = scene.State with { Step = SessionSteps.LockOut, Proposed = stack } }
        : SessionTurn.Refuse(trouble!);
}
