namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>A leaf spring is cracked, broken or missing.</summary>
internal sealed class LeafCracked : ICause
{
    public string Id => "leaf-cracked";

    public string Words => "A leaf spring is cracked, broken or missing.";

    public string Physics => "A lost leaf takes stiffness from one end: the natural frequency falls by the square root of what is left while the magnet pulls as before, and the softer end makes the tray's line of action turn.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.Falls,
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Pull] = Change.MayMove,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Angle] = Change.Moves,
            [Symptoms.Ellipse] = Change.Rises,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayMove,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Strike] = Change.MayMove,
            [Symptoms.FrontRear] = Change.Moves,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.Falls,
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Pull] = Change.MayMove,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Angle] = Change.Moves,
            [Symptoms.Ellipse] = Change.Rises,
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
            [Symptoms.FrontRear] = Change.Moves,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look at the leaf stacks from outside, hands off, for rust-coloured dust, a gap or a leaf out of line.",
        "Tap each leaf lightly: a cracked one sounds dull beside its neighbours.",
        "Loosen the stack only with the tray propped: leaves can be under preload. Replace with the same thickness.",
    ];

    public string Confirm => "It is confirmed where a leaf of the end that moves more sounds dull or shows a crack; it is refuted where the natural frequency comes back after the tray is cleaned.";
}
