namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The tray rubs on its chute, hopper or housing.</summary>
internal sealed class TrayRubbing : ICause
{
    public string Id => "tray-rubbing";

    public string Words => "The tray rubs on its chute, hopper or housing.";

    public string Physics => "A touch in part of the stroke stiffens and brakes the tray there, cycle for cycle: the tray shakes at two and three times the drive's frequency as well (harmonics), and moves less than the pull would have it.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.MayMove,
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Pull] = Change.MayMove,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Ellipse] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayRise,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Half] = Change.MayRise,
            [Symptoms.Noise] = Change.MayRise,
            [Symptoms.Slow] = Change.Rises,
            [Symptoms.Scatter] = Change.MayMove,
            [Symptoms.Strike] = Change.MayRise,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.MayMove,
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Pull] = Change.MayMove,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Ellipse] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.Rises,
            [Symptoms.High] = Change.MayRise,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Half] = Change.MayRise,
            [Symptoms.Noise] = Change.Rises,
            [Symptoms.Slow] = Change.MayRise,
            [Symptoms.Scatter] = Change.MayMove,
            [Symptoms.Strike] = Change.MayRise,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Walk round with the feeder running, hands off, and look for bright rubbed spots and dust at chute, hopper skirt and housing.",
        "Look whether the feeder sank on its mounts or a seal has hardened.",
        "Give the tray at least a finger's width all round.",
    ];

    public string Confirm => "It is confirmed by a rubbed spot; it is refuted where the tray runs free all round.";
}
