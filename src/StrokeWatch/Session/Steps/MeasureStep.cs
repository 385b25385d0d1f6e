using System.Globalization;

namespace StrokeWatch.Session.Steps;

/// <summary>Measures, from the live sensor or a capture.</summary>
internal sealed class MeasureStep : ISessionStep
{
    private const string Live = "live", Next = "next", Named = "named";

    /// <inheritdoc/>
    public string Id => SessionSteps.Measure;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene)
    {
        var choices = new List<SessionChoice>();
        if (scene.Live)
        {
            choices.Add(new(Live, string.Create(CultureInfo.InvariantCulture, $"measure {scene.Seconds:0.#} s with the live sensor"), true));
        }

        if (scene.NextCapture is { } capture)
        {
            choices.Add(new(Next, $"read the capture {capture}", choices.Count == 0));
        }

        if (!scene.AtPage)
        {
            choices.Add(new(Named, "read another capture: type its name", choices.Count == 0));
        }

        return new()
        {
            Id = Id,
            Title = "Measure",
            Text =
            [
                scene.AtPage
                    ? "Start the feeder and let it run steadily, then begin. When half of the time is over you are told to switch it off: let it come to rest. Its coast-down tells which way to go."
                    : scene.Live && scene.NextCapture is null
                    ? "Start the feeder, let it run steadily, then press the key. When half of the time is over, switch the feeder off and let it come to rest: its coast-down tells which way to go. Any key ends it early."
                    : "A capture holds some ten seconds of steady running and then a stop, all the way to rest: the coast-down tells which way to go.",
            ],
            Choices = choices,
            Explain = SessionWords.WhyStop,
        };
    }

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => scene.State.LockedOut
        ? new() { Next = scene.State with { Step = SessionSteps.Restart } }
        : answer switch
        {
            Live => new() { Wish = new(null) },
            Next => new() { Wish = new(scene.NextCapture) },
            _ => new() { Next = scene.State with { Step = SessionSteps.CaptureFile } },
        };
}
