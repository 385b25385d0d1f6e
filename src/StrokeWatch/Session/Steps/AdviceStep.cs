using StrokeWatch.Machine.Tuning;
using StrokeWatch.Reports;

namespace StrokeWatch.Session.Steps;

/// <summary>Says what to do next, as <c>tune advise</c> does.</summary>
internal sealed class AdviceStep : ISessionStep
{
    private const string Do = "do", Measure = "measure", Other = "other-stack", Tray = "tray", Checks = "checks";

    /// <inheritdoc/>
    public string Id => SessionSteps.Advice;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene)
    {
        var advice = scene.Advise();
        var (measure, other, tray, checks) = (new SessionChoice(Measure, "measure again"), new SessionChoice(Other, "put in another stack: type it"), new SessionChoice(Tray, "the tray's weight has been changed"), new SessionChoice(Checks, "go through the guided checks"));
        IReadOnlyList<SessionChoice> choices = scene.Last?.Strike == true ? [checks with { Enter = true }, measure, other, tray]
            : Proposal(advice) is { } stack ? [new(Do, $"put in {Stacks.Words(stack)}", true), other, measure, tray, checks]
            : advice.Advice?.Action is TuningAction.MeasureFirst or null ? [measure with { Enter = true }, other, tray, checks]
            : [checks with { Enter = true }, other, measure, tray];
        return new()
        {
            Id = Id,
            Title = "What to do next",
            Text = [.. Strike(scene), .. advice.Trouble is { } trouble ? [trouble] : Lines(advice)],
            Choices = choices,
            Explain = "Every stack that stock and clamp allow is held against all machines that the readings may have come from. The one that most probably lands in the band is proposed, among those that exceed the limit in no more than 1 case of 100. The front stack is never touched.",
        };
    }

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var state = scene.State;
        return answer switch
        {
            Do => new() { Next = state with { Step = SessionSteps.LockOut, Proposed = Proposal(scene.Advise()) } },
            Other => new() { Next = state with { Step = SessionSteps.OtherStack } },
            Tray => new() { Next = state with { Step = SessionSteps.Tray } },
            Checks => new() { Next = state with { Step = SessionSteps.Checks, ReturnTo = SessionSteps.Advice } },
            _ => new() { Next = state with { Step = state.LockedOut ? SessionSteps.Restart : SessionSteps.Measure } },
        };
    }

    /// <summary>Gives the stack to put in; null where none is proposed.</summary>
    private static IReadOnlyList<Machine.Feeder.LeafLayer>? Proposal(SessionAdvice advice) =>
        advice.Advice is { Action: TuningAction.ChangeRearStack or TuningAction.AddStiffnessOrLightenTray } told && !Stacks.Same(told.Choice.Rear, told.Installed) ? told.Choice.Rear : null;

    private static IEnumerable<string> Strike(SessionScene scene) => scene.Last?.Strike == true
        ? ["The armature strikes: whatever the stroke, the air gap comes first (too small, uneven, a loose core or bracket), then the voltage. Leaves that are changed now hide the fault."]
        : [];

    private static IEnumerable<string> Lines(SessionAdvice advice)
    {
        using var writer = new StringWriter { NewLine = "\n" };
        AdviceText.Write(writer, advice.Advice!, advice.Posterior!);

        // The first line names the feeder; the cautions come with the change itself.
        return writer.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Where(line => !line.StartsWith("  caution", StringComparison.Ordinal)).Select(line => line[2..]);
    }
}
