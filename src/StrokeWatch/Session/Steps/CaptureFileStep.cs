namespace StrokeWatch.Session.Steps;

/// <summary>Asks for the name of a capture.</summary>
internal sealed class CaptureFileStep : ISessionStep
{
    /// <inheritdoc/>
    public string Id => SessionSteps.CaptureFile;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Capture",
        Asks = "the capture's file name (CSV, TSV or WAV)",
        Explain = "A capture that was recorded with `strokewatch record`, or by anything that writes CSV or WAV, is measured exactly as the live sensor is.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => scene.AtPage
        ? SessionTurn.Refuse("A capture is named at a terminal; go back and measure with the live sensor.")
        : answer.Length == 0
        ? SessionTurn.Refuse("A file name was expected; b goes back.")
        : scene.State.LockedOut
        ? new() { Next = scene.State with { Step = SessionSteps.Restart } }
        : new() { Wish = new(answer) };
}
