using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Session.Steps;

/// <summary>Shows what was measured, and asks whether it counts.</summary>
internal sealed class ReadingStep : ISessionStep
{
    private const string Keep = "keep", Again = "again", LeaveOut = "leave-out";

    /// <inheritdoc/>
    public string Id => SessionSteps.Reading;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene)
    {
        var last = scene.Last;
        var told = last is { StrokeMetres: not null } or { NaturalHz: not null };
        return new()
        {
            Id = Id,
            Title = "Reading",
            Text = last is null ? [SessionWords.NothingMeasured] : SessionNumbers.Reading(last, scene.Feeder),
            Choices = told
                ? [new(Keep, "go on with this reading", true), new(Again, "measure once more; this reading counts too"), new(LeaveOut, "leave this reading out (something was wrong) and measure again")]
                : [new(Again, "measure again", true)],
            Explain = "Every reading is kept in the machine book. One that was disturbed (somebody leaned on the feeder, material fell) is left out of the advice, not erased.",
        };
    }

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var state = scene.State;
        return answer switch
        {
            Again => new() { Next = state with { Step = SessionSteps.Measure } },
            LeaveOut => new()
            {
                Next = state with { Step = SessionSteps.Measure },
                LeavesOutLast = SessionWords.LeftOutNote,
            },
            _ => new() { Next = state with { Step = Tuned(scene) ? SessionSteps.InBand : SessionSteps.Advice } },
        };
    }

    /// <summary>Says whether the last trial leaves nothing to do: in the band at full voltage, no strike, and not on the reverse side.</summary>
    public static bool Tuned(SessionScene scene) => scene.Last is { } last && !SessionMachine.Dangerous(last.Verdict, last.Strike) && scene.Advise().Advice?.Action == TuningAction.None;
}
