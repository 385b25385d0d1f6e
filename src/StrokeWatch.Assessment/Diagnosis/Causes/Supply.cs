namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The supply is too low or too high, or the controller fires at the wrong point.</summary>
internal sealed class Supply : ICause
{
    public string Id => "supply";

    public string Words => "The supply is too low or too high, or the controller fires at the wrong point.";

    public string Physics => "The pull goes with the square of the voltage while tray and leaves stay as they were; a controller that fires late also changes the shape of the pull.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Voltage] = Change.Moves,
            [Symptoms.Pull] = Change.Moves,
            [Symptoms.Stroke] = Change.Moves,
            [Symptoms.Strike] = Change.MayMove,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Voltage] = Change.MayFall,
            [Symptoms.PullPhase] = Change.MayMove,
            [Symptoms.Pull] = Change.Falls,
            [Symptoms.Stroke] = Change.Falls,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayMove,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look whether the controller's setpoint, its dial or a remote signal was changed, and ask what else was switched on the same line.",
        "Have the voltage at the controller's output read with a true-rms meter (licensed persons only) and compare it with the nameplate.",
    ];

    public string Confirm => "It is confirmed where the voltage is off by about half as many per cent as the pull; it is refuted where the voltage is right.";
}
