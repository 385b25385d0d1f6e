using StrokeWatch.Assessment.Diagnosis.Checks;

namespace StrokeWatch.Session.Steps;

/// <summary>Asks, where a session that was left with the feeder locked out is resumed, whether the lock is still on.</summary>
internal sealed class StillLockedStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.StillLocked;

    /// <summary>Says whether hands are near the machine at a step.</summary>
    public static bool HandsOn(string step) => step is SessionSteps.Change or SessionSteps.Bolts or SessionSteps.Gap or SessionSteps.Installed
        || (step.StartsWith(SessionSteps.Check, StringComparison.Ordinal) && CheckTable.Find(step[SessionSteps.Check.Length..])?.LockOut == true);

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Still locked out?",
        Text = SessionWords.StillLocked,
        Choices = [new("locked", "my lock is on, it is verified dead, and the tray is propped"), new("not-locked", "it is not: lock it out first")],
        Explain = SessionWords.WhyLockOut,
        CanGoBack = false,
        CanCheck = false,
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var state = scene.State;
        var held = state.Held ?? SessionSteps.Checks;
        return answer == "locked"
            ? new() { Next = state with { Step = held, Held = null } }
            : new() { Next = state with { Step = !HandsOn(held) ? held : held.StartsWith(SessionSteps.Check, StringComparison.Ordinal) ? SessionSteps.Checks : SessionSteps.LockOut, Held = null, LockedOut = false } };
    }
}
