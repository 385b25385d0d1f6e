namespace StrokeWatch.Session.Steps;

/// <summary>The change of leaves itself.</summary>
internal sealed class ChangeStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.Change;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Change the rear stack",
        Text = SessionWords.Change(scene.State.Rear, scene.State.Proposed ?? scene.State.Rear),
        Choices = [new("done", "the leaves are in", true), new("not-done", "it was not done: leave the stack as it was")],
        Explain = "The front stack sets how the tray moves at its front and was matched to the tray when the feeder was built; the rear stack is where the stroke is tuned. Dirt or oil in a clamp makes the stack softer than its leaves, and differently so each time.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => answer == "done"
        ? new() { Next = scene.State with { Step = SessionSteps.Bolts } }
        : new() { Next = scene.State with { Step = SessionSteps.Advice, Proposed = null } };
}
