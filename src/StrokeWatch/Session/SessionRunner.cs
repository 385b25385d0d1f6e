using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Session;

/// <summary>Joins the session's steps with the book and what measures; a terminal or a page puts its questions and brings the answers.</summary>
internal sealed class SessionRunner(FeederDescription feeder, ISessionKeeper keeper, SessionTools tools, SessionState begun)
{
    private readonly SessionAdvisor advisor = new(feeder);

    /// <summary>Gets where the session stands.</summary>
    public SessionState State { get; private set; } = begun;

    /// <summary>Gets the question that stands.</summary>
    public SessionStep Current => SessionMachine.Ask(Scene());

    /// <summary>Gets whether any trial holds a stroke; null where nothing was measured.</summary>
    public bool? AnyStroke => keeper.Trials.Count == 0 ? null : keeper.Trials.Any(trial => trial.StrokeMetres is not null);

    /// <summary>Takes an answer as it was typed; whatever comes of it is kept when this returns.</summary>
    public SessionTurn Answer(string typed)
    {
        var (step, scene) = (State.Step, Scene());
        var turn = SessionMachine.Answer(scene, typed);
        if (turn.Wish is { } wish)
        {
            var (reading, trouble) = tools.Measure(wish);
            if (reading is null)
            {
                return SessionTurn.Refuse(trouble ?? SessionWords.NothingMeasured);
            }

            var capture = reading.Trial.Capture is { } file ? tools.Name(file) : null;
            (turn, typed) = (SessionMachine.Measured(Scene(), reading with { Trial = reading.Trial with { Capture = capture } }), capture ?? "live");
        }

        if (turn.Next is not { } next)
        {
            return turn;
        }

        if (turn.Baseline && scene.Last is { } last)
        {
            var (version, said, trouble) = tools.Learn(last);
            if (version is null)
            {
                return SessionTurn.Refuse(trouble!);
            }

            next = next with { BaselineVersion = version };
            turn = turn with { Said = [.. turn.Said, .. said] };
        }

        if (!keeper.Keep(step, typed.Trim(), next, turn, tools.Time.GetUtcNow()))
        {
            return new() { Said = [SessionWords.Elsewhere], Leaves = true };
        }

        State = next;
        return turn with { Next = next };
    }

    private SessionScene Scene() => new()
    {
        Feeder = feeder,
        State = State,
        Trials = keeper.Trials,
        Found = keeper.Found,
        Live = tools.Live,
        AtPage = tools.AtPage,
        Seconds = tools.Seconds,
        NextCapture = tools.Captures.FirstOrDefault(file => keeper.Trials.All(trial => trial.Capture != tools.Name(file))),
        Now = tools.Time.GetUtcNow(),
        Advisor = advisor,
    };
}
