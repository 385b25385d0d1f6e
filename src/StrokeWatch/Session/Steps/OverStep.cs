namespace StrokeWatch.Session.Steps;

/// <summary>The session is over; its record in a few lines.</summary>
internal sealed class OverStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.Over;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Record",
        Text = SessionRecord.Lines(scene),
        Explain = "",
        CanGoBack = false,
        CanCheck = false,
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => SessionTurn.Refuse("The session is over.");
}
