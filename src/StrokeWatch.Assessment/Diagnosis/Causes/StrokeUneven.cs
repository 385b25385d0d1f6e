namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The tray moves more at one end than at the other.</summary>
internal sealed class StrokeUneven : ICause
{
    public string Id => "uneven-stroke";

    public string Words => "The tray moves more at one end than at the other.";

    public string Physics => "Load, leaves or pull that do not balance about the tray's centre of mass rock it: the line of action turns and the ends differ, while natural frequency and pull stay.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Angle] = Change.Moves,
            [Symptoms.Ellipse] = Change.Rises,
            [Symptoms.FrontRear] = Change.Moves,
            [Symptoms.EndsPhase] = Change.Moves,
        },
        new Dictionary<string, Change>
        {
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
            [Symptoms.EndsPhase] = Change.MayMove,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look, hands off, whether the feeder stands level on its mounts, for material caked at one end, and whether both leaf stacks are alike left and right.",
        "Fix a sensor, or a stroke sticker, at each of the four corners of the tray; then let it run and compare them, hands off.",
    ];

    public string Confirm => "It is confirmed where the corners differ; it is refuted where they do not.";
}
