using System.Globalization;

namespace StrokeWatch.Session.Steps;

/// <summary>Asks by how much the tray's weight differs from the feeder file's.</summary>
internal sealed class TrayStep : ISessionStep
{
    private const double Lightest = -0.9, Heaviest = 2;

    /// <inheritdoc/>
    public string Id => SessionSteps.Tray;

    /// <inheritdoc/>
    public SessionStep Ask(SessionScene scene) => new()
    {
        Id = Id,
        Title = "Tray weight",
        Text = ["Weight comes off or goes on with the feeder locked out."],
        Asks = "by how many kg the tray is now heavier than its file says (lighter: with a minus)",
        EnterMeans = string.Create(CultureInfo.InvariantCulture, $"{scene.State.TrayChangeKilograms:0.##} kg"),
        Explain = "The tray's weight sets the natural frequency as the leaves do. A liner that came off or a plate that went on is told here, so that readings before and after it can be compared.",
    };

    /// <inheritdoc/>
    public SessionTurn Answer(SessionScene scene, string answer)
    {
        var state = scene.State;
        var text = answer.Replace(',', '.').Replace("kg", "", StringComparison.OrdinalIgnoreCase).Trim();
        var tray = scene.Feeder.Masses?.TrayKilograms ?? 1e5;
        var change = answer.Length == 0 ? state.TrayChangeKilograms : double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var typed) ? typed : double.NaN;
        return change >= Lightest * tray && change <= Heaviest * tray
            ? new() { Next = state with { Step = state.LockedOut ? SessionSteps.Restart : SessionSteps.Again, TrayChangeKilograms = change } }
            : SessionTurn.Refuse(string.Create(CultureInfo.InvariantCulture, $"A number of kg from {Lightest * tray:0.#} to {Heaviest * tray:0.#} was expected, such as -2.5."));
    }
}
