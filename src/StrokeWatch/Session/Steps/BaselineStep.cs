namespace StrokeWatch.Session.Steps;

/// <summary>Makes the tuned feeder's baseline.</summary>
internal sealed class BaselineStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.Baseline;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Baseline",
        Text =
        [
            "From now on the feeder is held against what it is today: stroke, and natural frequency and damping where they were read.",
            "One reading tells the values, not how far they wander: usual spreads are taken (common practice). `strokewatch baseline learn` makes a better one of ten captures.",
        ],
        Choices = [new("yes", "make this the baseline", true), new("no", "keep the baseline as it is")],
        Explain = "After a change of leaves the old baseline is another machine's: without a new one every reading would look like a fault.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => new() { Next = scene.State with { Step = SessionSteps.Sign }, Baseline = answer == "yes" };
}
