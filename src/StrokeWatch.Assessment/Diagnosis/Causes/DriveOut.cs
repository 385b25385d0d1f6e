namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>One of several drives is dead, weak or out of phase with the others.</summary>
internal sealed class DriveOut : ICause
{
    public string Id => "drive-out";

    public string Words => "One of several drives is dead, weak or out of phase with the others.";

    public string Physics => "The pull falls and no longer passes through the tray's centre of mass: the ends move at different times, while natural frequency and damping stay.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Pull] = Change.Falls,
            [Symptoms.Stroke] = Change.Falls,
            [Symptoms.Ellipse] = Change.Rises,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayMove,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Strike] = Change.MayMove,
            [Symptoms.FrontRear] = Change.MayMove,
            [Symptoms.EndsPhase] = Change.Moves,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Listen, hands off, whether each drive hums, and compare what the controllers show of each; at terminals only a licensed person measures.",
        "Feel which cover stayed cool: its coil had no current. Coils that ran are hot.",
        "Have a licensed person check that all drives are connected with the same polarity, and one by one the coil's resistance.",
    ];

    public string Confirm => "It is confirmed where one drive draws no current, or its current comes at another time; it is refuted where all are alike.";
}
