namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The sensor clips, sticks or is dead.</summary>
internal sealed class SensorFault : ICause
{
    public string Id => "sensor-fault";

    public string Words => "The sensor clips, sticks or is dead.";

    public string Physics => "Samples that stand at the rail, or say one value again and again, are the sensor's and not the machine's.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.Any,
            [Symptoms.Damping] = Change.Any,
            [Symptoms.Pull] = Change.Any,
            [Symptoms.Stroke] = Change.Any,
            [Symptoms.Side] = Change.Any,
            [Symptoms.Angle] = Change.Any,
            [Symptoms.Ellipse] = Change.Any,
            [Symptoms.Second] = Change.Any,
            [Symptoms.Third] = Change.Any,
            [Symptoms.High] = Change.Any,
            [Symptoms.SecondPhase] = Change.Any,
            [Symptoms.Across] = Change.Any,
            [Symptoms.Half] = Change.Any,
            [Symptoms.Noise] = Change.Any,
            [Symptoms.Slow] = Change.Any,
            [Symptoms.Crest] = Change.Any,
            [Symptoms.Scatter] = Change.Any,
            [Symptoms.Strike] = Change.Any,
            [Symptoms.FrontRear] = Change.Any,
            [Symptoms.EndsPhase] = Change.Any,
            [Symptoms.Tilt] = Change.Any,
            [Symptoms.Gravity] = Change.Any,
            [Symptoms.Clipped] = Change.Rises,
            [Symptoms.RailPeaks] = Change.Any,
            [Symptoms.Silent] = Change.Any,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.Any,
            [Symptoms.Damping] = Change.Any,
            [Symptoms.Pull] = Change.Any,
            [Symptoms.Stroke] = Change.Any,
            [Symptoms.Side] = Change.Any,
            [Symptoms.Angle] = Change.Any,
            [Symptoms.Ellipse] = Change.Any,
            [Symptoms.Second] = Change.Any,
            [Symptoms.Third] = Change.Any,
            [Symptoms.High] = Change.Any,
            [Symptoms.SecondPhase] = Change.Any,
            [Symptoms.Across] = Change.Any,
            [Symptoms.Half] = Change.Any,
            [Symptoms.Noise] = Change.Any,
            [Symptoms.Slow] = Change.Any,
            [Symptoms.Crest] = Change.Any,
            [Symptoms.Scatter] = Change.Any,
            [Symptoms.Strike] = Change.Any,
            [Symptoms.FrontRear] = Change.Any,
            [Symptoms.EndsPhase] = Change.Any,
            [Symptoms.Tilt] = Change.Any,
            [Symptoms.Gravity] = Change.Any,
            [Symptoms.Clipped] = Change.Any,
            [Symptoms.RailPeaks] = Change.Any,
            [Symptoms.Silent] = Change.Rises,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Compare the sensor's range with the stroke: full scale should be at least twice the expected peak.",
        "Check plug, cable and supply of the sensor.",
        "Put another sensor in its place.",
    ];

    public string Confirm => "It is confirmed where another sensor of larger range measures; it is refuted where that one shows the same.";
}
