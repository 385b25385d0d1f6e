using StrokeWatch.Assessment.Diagnosis.Checks;

namespace StrokeWatch.Session.Steps;

/// <summary>The list of guided checks, those without lock-out first, and where they point so far.</summary>
internal sealed class ChecksStep : ISessionStep
{
    private const string Back = "done";

    /// <inheritdoc/>
    public string Id => SessionSteps.Checks;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene)
    {
        var next = CheckTable.All.FirstOrDefault(check => scene.Found.All(found => found.Check != check.Id))?.Id ?? Back;
        return new()
        {
            Id = Id,
            Title = "Guided checks",
            Text = ["Go from the top: what needs only eyes and ears comes before what needs the feeder locked out.", .. CheckWords.Standing(scene.Found)],
            Choices =
            [
                .. CheckTable.All.Select(check => new SessionChoice(check.Id, $"{check.Title}{(check.LockOut ? " (lock-out)" : "")}{CheckWords.Answer(check, scene.Found)}", check.Id == next)),
                new(Back, "done with checks", next == Back),
            ],
            Explain = "Each answer makes some causes likelier and rules others out; the list of causes is put in order again after each.",
            CanCheck = false,
        };
    }

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var state = scene.State;
        return answer == Back
            ? new() { Next = state with { Step = state.ReturnTo ?? SessionSteps.Over, ReturnTo = null, Check = null }, Done = state.ReturnTo is null }
            : CheckTable.Find(answer)!.LockOut && !state.LockedOut
                ? new() { Next = state with { Step = SessionSteps.CheckLockOut, Check = answer } }
                : new() { Next = state with { Step = SessionSteps.Check + answer } };
    }
}
