namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The tray or one of its welds is cracked.</summary>
internal sealed class TrayCracked : ICause
{
    public string Id => "tray-cracked";

    public string Words => "The tray or one of its welds is cracked.";

    public string Physics => "A crack opens and closes with each stroke: the tray bends more easily one way than the other, so that sharp movement appears, also across the line of action, while pull and leaves stay as they were.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.MayFall,
            [Symptoms.Angle] = Change.MayMove,
            [Symptoms.Ellipse] = Change.MayMove,
            [Symptoms.Second] = Change.Moves,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayMove,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.Rises,
            [Symptoms.Half] = Change.MayRise,
            [Symptoms.Noise] = Change.MayRise,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.MayFall,
            [Symptoms.Angle] = Change.MayMove,
            [Symptoms.Ellipse] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.Moves,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.Rises,
            [Symptoms.Half] = Change.MayRise,
            [Symptoms.Noise] = Change.MayRise,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look, hands off, along the welds at the armature bracket, the spring seats and the deck edges for a line of dust.",
        "Wipe those welds and look for a fine line.",
        "Press dye penetrant on what looks suspicious; do not weld before the magnet and sensor cables are off.",
        "Look whether the rattle is a loose liner or guard bolt instead.",
    ];

    public string Confirm => "It is confirmed by a line that dye shows; it is refuted where tightening liners and guards takes the sharp movement away.";
}
