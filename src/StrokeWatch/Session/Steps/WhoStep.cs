namespace StrokeWatch.Session.Steps;

/// <summary>Asks who works on it.</summary>
internal sealed class WhoStep : ISessionStep
{
    private const int Fewest = 2, Most = 60;

    /// <inheritdoc/>
    public string Id => SessionSteps.Who;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Who",
        Asks = "your name or initials",
        EnterMeans = "later",
        CanCheck = false,
        Explain = "The record says who did what. It is asked for again at the end, where the record is signed.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer) => answer.Length == 0
        ? new() { Next = scene.State with { Step = SessionSteps.Cautions } }
        : Trouble(answer) is { } trouble ? SessionTurn.Refuse(trouble) : new() { Next = scene.State with { Step = SessionSteps.Cautions, Who = answer } };

    /// <summary>Says what is wrong with a name; null where nothing is.</summary>
    public static string? Trouble(string name) => name.Length is < Fewest or > Most || name.Any(char.IsControl) ? "A name or initials of 2 to 60 characters were expected." : null;
}
