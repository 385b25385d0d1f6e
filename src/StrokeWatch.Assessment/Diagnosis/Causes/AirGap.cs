namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The air gap is too small, or uneven.</summary>
internal sealed class AirGap : ICause
{
    public string Id => "air-gap";

    public string Words => "The air gap is too small, or uneven.";

    public string Physics => "A smaller gap lets the magnet pull harder, the more the nearer, which also softens the springs a little; a gap that is not even pulls to one side.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Pull] = Change.Rises,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayMove,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Strike] = Change.Rises,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Pull] = Change.MayRise,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Strike] = Change.MayRise,
            [Symptoms.RailPeaks] = Change.Rises,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Pull] = Change.MayRise,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Angle] = Change.Moves,
            [Symptoms.Ellipse] = Change.Rises,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayMove,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Strike] = Change.MayRise,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look, hands off, for a moved core, a bent bracket or sagging leaves, and for bright marks where armature and core met.",
        "Measure the gap with a feeler gauge that is not magnetic at all four corners, fingers out: the magnet pinches when it wakes.",
        "Set the gap to the manual's value, even all round.",
    ];

    public string Confirm => "It is confirmed by the feeler gauge; it is refuted where the gap is as the manual asks, all round.";
}
