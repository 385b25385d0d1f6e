namespace StrokeWatch.Session.Steps;

/// <summary>The stroke is in its band.</summary>
internal sealed class InBandStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.InBand;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "IN BAND",
        Text =
        [
            .. scene.Last is { } last ? SessionNumbers.Reading(last, scene.Feeder) : [],
            "The feeder is tuned. Check the clamp bolts again after a day of running, locked out. (Common practice.)",
        ],
        Choices = [new("close", "close the session", true), new("again", "measure once more to be sure")],
        Explain = "The reading lies in its band at full voltage with an empty tray, no strike was heard, and the feeder is not on the reverse side.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) =>
        new() { Next = scene.State with { Step = answer == "close" ? SessionSteps.Baseline : SessionSteps.Measure } };
}
