using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session.Steps;

/// <summary>Closes the record with a name.</summary>
internal sealed class SignStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.Sign;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Sign the record",
        Asks = "your name",
        EnterMeans = scene.State.Who,
        Explain = "The record holds the date, the name, all readings, every change of leaves and the final stroke with its uncertainty. It is not changed afterwards.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var who = answer.Length == 0 ? scene.State.Who : answer;
        return who is null || WhoStep.Trouble(who) is not null
            ? SessionTurn.Refuse(WhoStep.Trouble(who ?? "")!)
            : new()
            {
                Next = scene.State with { Step = SessionSteps.Over, Who = who },
                Done = true,
                Entry = new() { Utc = scene.Now, Kind = BookEntryKind.Note, Who = who, Rear = StackText.Write(scene.State.Rear), Text = SessionRecord.Tuned(scene) },
            };
    }
}
