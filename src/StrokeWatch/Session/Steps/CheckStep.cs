using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session.Steps;

/// <summary>One guided check: how to make it, and what was found.</summary>
internal sealed class CheckStep : ISessionStep
{
    private const string Skip = "skip", Replaced = "coil";

    /// <inheritdoc/>
    public string Id => SessionSteps.Check;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene)
    {
        var check = Of(scene);
        return new()
        {
            Id = scene.State.Step,
            Title = check.Title,
            Text = [.. check.How, "(Common practice.)"],
            Choices = [.. check.Choices.Select(choice => new SessionChoice(choice.Id, choice.Words)), new(Skip, "not looked at: back to the list")],
            Explain = string.Join(" ", check.Choices.Select(choice => $"{char.ToUpperInvariant(choice.Words[0])}{choice.Words[1..]}: {choice.Tells}")),
            CanCheck = false,
        };
    }

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var (state, check) = (scene.State, Of(scene));
        var next = state with { Step = SessionSteps.Checks };
        return check.Find(answer) is not { } choice
            ? new() { Next = next }
            : new()
            {
                Next = next,
                Said = [$"{choice.Found} {choice.Tells}"],
                Check = new(0, null, scene.Now, check.Id, choice.Id, state.Who, null),
                Entry = check.Id == Replaced ? new() { Utc = scene.Now, Kind = BookEntryKind.Coil, Who = state.Who, Text = choice.Found } : null,
            };
    }

    private static GuidedCheck Of(SessionScene scene) => CheckTable.Find(scene.State.Step[SessionSteps.Check.Length..])
        ?? throw new InvalidOperationException($"There is no check {scene.State.Step}.");
}
