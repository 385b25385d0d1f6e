namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>A spring clamp or its bolt is loose.</summary>
internal sealed class ClampLoose : ICause
{
    public string Id => "clamp-loose";

    public string Words => "A spring clamp or its bolt is loose.";

    public string Physics => "A joint that slips once the tray moves far softens and brakes it: natural frequency falls, movement dies away faster, and the slip twice a cycle makes the tray shake at three times the drive's frequency as well (third order).";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.MayFall,
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Pull] = Change.MayMove,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.Rises,
            [Symptoms.High] = Change.MayRise,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Slow] = Change.MayRise,
            [Symptoms.Crest] = Change.MayMove,
            [Symptoms.Scatter] = Change.MayMove,
            [Symptoms.Strike] = Change.MayMove,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.Falls,
            [Symptoms.Damping] = Change.Rises,
            [Symptoms.Pull] = Change.MayMove,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayRise,
            [Symptoms.High] = Change.MayRise,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Scatter] = Change.MayMove,
            [Symptoms.Strike] = Change.MayRise,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.Falls,
            [Symptoms.Damping] = Change.MayRise,
            [Symptoms.Pull] = Change.Rises,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayRise,
            [Symptoms.High] = Change.MayRise,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Scatter] = Change.MayMove,
            [Symptoms.Strike] = Change.MayRise,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look, hands off, for rust-coloured dust or a polished edge at the clamps of the leaf stacks.",
        "Check the clamp bolts with a torque wrench; the value is in the machine's manual.",
        "Take apart what was loose: clamped faces must be dry, clean and free of wear.",
    ];

    public string Confirm => "It is confirmed where a bolt turns before its torque; it is refuted where all hold.";
}
