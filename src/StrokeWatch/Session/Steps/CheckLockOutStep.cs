namespace StrokeWatch.Session.Steps;

/// <summary>Asks for the lock-out before the first check that needs it.</summary>
internal sealed class CheckLockOutStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.CheckLockOut;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Isolate and lock out",
        Text = SessionWords.LockOut,
        Choices = [new("confirmed", "it is isolated, locked out and verified dead, and the tray is propped"), new("not-now", "not now: back to the list")],
        Explain = SessionWords.WhyLockOut,
        CanCheck = false,
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var state = scene.State;
        return answer == "confirmed" && state.Check is { } check
            ? new() { Next = state with { Step = SessionSteps.Check + check, Check = null, LockedOut = true } }
            : new() { Next = state with { Step = SessionSteps.Checks, Check = null } };
    }
}
