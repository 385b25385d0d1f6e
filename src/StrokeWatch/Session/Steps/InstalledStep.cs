using StrokeWatch.Machine.Tuning;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session.Steps;

/// <summary>Asks what was really put in.</summary>
internal sealed class InstalledStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.Installed;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "What is in now",
        Text = ["Count the rear leaves once more before the guards go on."],
        Asks = "the rear stack that is really in, such as 4x4.0 1x3.0",
        EnterMeans = Stacks.Words(scene.State.Proposed ?? scene.State.Rear),
        Explain = "The next reading is held against this stack. Where a leaf was left over, or another thickness went in, say so here: it does no harm, a wrong entry does.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var state = scene.State;
        var rear = answer.Length == 0 ? state.Proposed ?? state.Rear : RearStep.Read(answer, scene.Feeder, out _);
        return rear is null
            ? SessionTurn.Refuse(RearStep.Trouble(answer, scene.Feeder))
            : new()
            {
                Next = state with { Step = SessionSteps.Restart, Rear = rear, Proposed = null },
                Entry = new()
                {
                    Utc = scene.Now,
                    Kind = BookEntryKind.LeafSet,
                    Who = state.Who,
                    Rear = StackText.Write(rear),
                    Front = scene.Feeder.Springs is { } springs ? StackText.Write(springs.Front) : null,
                },
            };
    }
}
