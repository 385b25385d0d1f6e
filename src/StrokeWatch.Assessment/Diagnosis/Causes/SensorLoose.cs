namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The sensor's mounting is loose.</summary>
internal sealed class SensorLoose : ICause
{
    public string Id => "sensor-loose";

    public string Words => "The sensor's mounting is loose.";

    public string Physics => "A sensor on a soft foot rings and rattles by itself: sharp movement and noise appear while natural frequency and damping of the machine stay.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Angle] = Change.MayMove,
            [Symptoms.Ellipse] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.Rises,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.Rises,
            [Symptoms.Half] = Change.MayRise,
            [Symptoms.Noise] = Change.MayRise,
            [Symptoms.Slow] = Change.MayRise,
            [Symptoms.Crest] = Change.MayMove,
            [Symptoms.Scatter] = Change.MayMove,
            [Symptoms.Strike] = Change.MayRise,
            [Symptoms.FrontRear] = Change.MayMove,
            [Symptoms.Tilt] = Change.MayMove,
            [Symptoms.Gravity] = Change.MayMove,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Angle] = Change.MayMove,
            [Symptoms.Ellipse] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayRise,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayRise,
            [Symptoms.Half] = Change.MayRise,
            [Symptoms.Noise] = Change.MayRise,
            [Symptoms.Slow] = Change.MayRise,
            [Symptoms.Crest] = Change.MayMove,
            [Symptoms.Scatter] = Change.MayMove,
            [Symptoms.Strike] = Change.Rises,
            [Symptoms.FrontRear] = Change.MayMove,
            [Symptoms.Tilt] = Change.MayMove,
            [Symptoms.Gravity] = Change.MayMove,
            [Symptoms.RailPeaks] = Change.MayRise,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look, hands off, at sensor and cable: the cable must be held near the sensor and not pull on it, and nothing may rattle with it.",
        "Feel whether the sensor turns or rocks on its stud.",
        "Clean the face, screw the sensor down and record again.",
    ];

    public string Confirm => "It is confirmed where the sharp movement goes once the sensor is tight; it is refuted where it stays.";
}
