namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The feeder runs on the reverse side of the tuning curve.</summary>
internal sealed class ReverseSide : ICause
{
    public string Id => "reverse-side";

    public string Words => "The feeder runs on the reverse side of the tuning curve.";

    public string Physics => "Its natural frequency lies below the drive's: more material then makes it move less, and stiffer leaves make it move more.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.MayMove,
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Pull] = Change.MayMove,
            [Symptoms.Stroke] = Change.MayMove,
            [Symptoms.Side] = Change.Falls,
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
        "Look, hands off, whether the tray is the one the machine was built with, and free of build-up.",
        "Before any tuning, bring it back: stiffen the rear stack or lighten the tray.",
        "Let it coast down once more afterwards and read the natural frequency.",
    ];

    public string Confirm => "It is confirmed where a little weight on the tray makes the stroke fall; it is refuted where the stroke rises.";
}
