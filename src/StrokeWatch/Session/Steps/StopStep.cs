namespace StrokeWatch.Session.Steps;

/// <summary>Says to stop the feeder before anything else.</summary>
internal sealed class StopStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.Stop;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene)
    {
        var strike = scene.Last?.Strike == true;
        return new()
        {
            Id = Id,
            Title = strike ? "ARMATURE STRIKE" : "OVER-STROKE",
            Text =
            [
                .. SessionWords.StopNow,
                strike ? "The armature was heard striking its core: each blow breaks leaves, bolts and coil." : "The stroke went over its limit: leaves are overstressed, and the armature may strike.",
            ],
            Choices = [new("stopped", "the feeder is switched off")],
            Explain = "Seconds count. What was measured is kept; it is shown as soon as the feeder is off.",
            Urgent = true,
            CanGoBack = false,
            CanCheck = false,
        };
    }

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => new() { Next = scene.State with { Step = SessionSteps.Reading } };
}
