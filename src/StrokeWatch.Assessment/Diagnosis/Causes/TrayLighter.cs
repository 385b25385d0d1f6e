namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The tray is lighter than it was: worn through, a liner lost or the wrong tray.</summary>
internal sealed class TrayLighter : ICause
{
    public string Id => "tray-lighter";

    public string Words => "The tray is lighter than it was: worn through, a liner lost or the wrong tray.";

    public string Physics => "Less mass on the same leaves raises the natural frequency and gives the same pull less to move; the line of action stays.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.Rises,
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Pull] = Change.Rises,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayMove,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Strike] = Change.MayMove,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look, hands off, whether a liner, a guard or a counterweight is missing from the tray.",
        "Look for wear through the deck where material lands.",
        "Ask whether the tray was changed for another.",
    ];

    public string Confirm => "It is confirmed where a part is missing or the deck is thin; it is refuted where the tray weighs what it did.";
}
