using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Session.Steps;

namespace StrokeWatch.Session;

/// <summary>The session itself: question in, answer in, next question out; no clock, no file, no terminal. A terminal and a page drive the same steps.</summary>
internal static class SessionMachine
{
    private const int LongestTrail = 40;

    private static readonly IReadOnlyDictionary<string, ISessionStep> Steps = SessionSteps.All.ToDictionary(step => step.Id, StringComparer.Ordinal);

    /// <summary>Gives the state of a new session.</summary>
    /// <param name="who">Who works on it; null to be asked.</param>
    /// <param name="rear">The rear stack that is taken to be in.</param>
    public static SessionState Begin(string? who, IReadOnlyList<LeafLayer> rear) => new() { Step = who is null ? SessionSteps.Who : SessionSteps.Cautions, Who = who, Rear = rear };

    /// <summary>Gives the state to resume with: that very step, but where the feeder was locked out it is asked first whether it still is.</summary>
    public static SessionState Resume(SessionState kept) =>
        kept.LockedOut && kept.Step is not (SessionSteps.Restart or SessionSteps.StillLocked) ? kept with { Step = SessionSteps.StillLocked, Held = kept.Step } : kept;

    /// <summary>Says whether a step of that id is known.</summary>
    public static bool Knows(string id) =>
        Steps.ContainsKey(Key(id)) && (!id.StartsWith(SessionSteps.Check, StringComparison.Ordinal) || CheckTable.Find(id[SessionSteps.Check.Length..]) is not null);

    /// <summary>Gives the question that stands.</summary>
    public static SessionStep Ask(SessionScene scene) => Step(scene).Ask(scene);

    /// <summary>Takes an answer as it was typed: a choice's number or id, Enter (nothing), words, or b, q, c, ?.</summary>
    public static SessionTurn Answer(SessionScene scene, string typed)
    {
        var (asked, state) = (Ask(scene), scene.State);
        var text = typed.Trim();
        switch (text.ToLowerInvariant())
        {
            case "?":
                return new() { Said = [asked.Explain] };
            case "q":
                return new() { Leaves = true };
            case "b":
                return !asked.CanGoBack || state.Trail.Count == 0
                    ? SessionTurn.Refuse(SessionWords.NoWayBack)
                    : new() { Next = state with { Step = state.Trail[^1], Trail = [.. state.Trail.SkipLast(1)] } };
            case "c" when asked.CanCheck:
                return Forward(state, new() { Next = state with { Step = SessionSteps.Checks, ReturnTo = state.ReturnTo ?? state.Step } });
        }

        if (asked.Choices.Count == 0)
        {
            return Forward(state, Step(scene).Answer(scene, text));
        }

        return Chosen(asked, text) is { } choice ? Forward(state, Step(scene).Answer(scene, choice.Id)) : SessionTurn.Refuse(SessionWords.NoAnswer(asked, text));
    }

    /// <summary>Takes what came of a measurement that a turn wished for.</summary>
    public static SessionTurn Measured(SessionScene scene, SessionReading reading)
    {
        var state = scene.State;
        var trial = reading.Trial with
        {
            Utc = scene.Now,
            Rear = StackText.Write(state.Rear),
            Front = scene.Feeder.Springs is { } springs ? StackText.Write(springs.Front) : null,
            TrayChangeKilograms = state.TrayChangeKilograms,
        };
        var next = reading.Danger ? SessionSteps.Stop : SessionSteps.Reading;
        return Forward(state, new() { Next = state with { Step = next }, Trial = trial });
    }

    /// <summary>Says whether a trial's stroke or strike is a danger by itself.</summary>
    public static bool Dangerous(string verdict, bool? strike) => verdict == Names.Of(Assessment.Verdicts.Verdict.OverStroke) || strike == true;

    private static SessionTurn Forward(SessionState from, SessionTurn turn)
    {
        if (turn.Next is not { } next || next.Step == from.Step)
        {
            return turn;
        }

        // Where the lock comes off there is no way back to where hands are in the machine.
        if (from.LockedOut && !next.LockedOut)
        {
            return turn with { Next = next with { Trail = [] } };
        }

        // From a stop nobody goes back into the danger, and a step that is gone to again is not gone back through twice.
        List<string> trail = [.. next.Trail.TakeWhile(step => step != next.Step)];
        if (!trail.Contains(from.Step) && from.Step is not (SessionSteps.Stop or SessionSteps.StillLocked))
        {
            trail.Add(from.Step);
        }

        return turn with { Next = next with { Trail = [.. trail.TakeLast(LongestTrail)] } };
    }

    private static SessionChoice? Chosen(SessionStep asked, string text) => text.Length == 0
        ? asked.Choices.FirstOrDefault(choice => choice.Enter)
        : text.Length == 1 && SessionStep.Keys.IndexOf(text[0], StringComparison.Ordinal) is >= 0 and var place && place < asked.Choices.Count
            ? asked.Choices[place]
            : asked.Choices.FirstOrDefault(choice => choice.Id.Equals(text, StringComparison.OrdinalIgnoreCase) || choice.Words.Equals(text, StringComparison.OrdinalIgnoreCase));

    private static ISessionStep Step(SessionScene scene) => Steps[Key(scene.State.Step)];

    private static string Key(string id) => id.IndexOf(':', StringComparison.Ordinal) is >= 0 and var colon ? id[..(colon + 1)] : id;
}
