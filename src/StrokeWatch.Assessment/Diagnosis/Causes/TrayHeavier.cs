namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The tray is heavier than it was: build-up, an added liner or the wrong tray.</summary>
internal sealed class TrayHeavier : ICause
{
    public string Id => "tray-heavier";

    public string Words => "The tray is heavier than it was: build-up, an added liner or the wrong tray.";

    public string Physics => "More mass on the same leaves lowers the natural frequency and gives the same pull more to move; the line of action stays.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.Falls,
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Pull] = Change.Falls,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayMove,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Strike] = Change.MayMove,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.Falls,
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Pull] = Change.Falls,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.Rises,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayRise,
            [Symptoms.Half] = Change.MayRise,
            [Symptoms.Noise] = Change.Rises,
            [Symptoms.Slow] = Change.MayRise,
            [Symptoms.Crest] = Change.MayMove,
            [Symptoms.Scatter] = Change.MayMove,
            [Symptoms.Strike] = Change.MayRise,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look, hands off, for caked material on the tray, and ask whether tray, liner, screen or guard was changed.",
        "Empty the tray and clean off what has caked, also under the deck and behind the liners; weigh what was added.",
        "Let it coast down once with the tray empty and compare the natural frequency.",
    ];

    public string Confirm => "It is confirmed where cleaning the tray brings the natural frequency back; it is refuted where an empty, clean tray still shows the low frequency.";
}
