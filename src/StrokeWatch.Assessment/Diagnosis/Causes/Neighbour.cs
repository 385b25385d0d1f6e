namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>A machine nearby shakes this one.</summary>
internal sealed class Neighbour : ICause
{
    public string Id => "neighbour";

    public string Words => "A machine nearby shakes this one.";

    public string Physics => "Vibration that does not go with this drive comes through the floor; stroke, natural frequency and damping are as before.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Ellipse] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayRise,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Half] = Change.MayRise,
            [Symptoms.Noise] = Change.Rises,
            [Symptoms.Slow] = Change.MayRise,
            [Symptoms.Crest] = Change.MayMove,
            [Symptoms.Scatter] = Change.MayRise,
            [Symptoms.Strike] = Change.MayMove,
        },
        new Dictionary<string, Change>
        {
            [Symptoms.Damping] = Change.MayMove,
            [Symptoms.Ellipse] = Change.MayMove,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.Third] = Change.MayMove,
            [Symptoms.High] = Change.MayRise,
            [Symptoms.Across] = Change.MayMove,
            [Symptoms.Half] = Change.MayRise,
            [Symptoms.Noise] = Change.MayRise,
            [Symptoms.Slow] = Change.Rises,
            [Symptoms.Crest] = Change.MayMove,
            [Symptoms.Scatter] = Change.MayRise,
            [Symptoms.Strike] = Change.MayMove,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Record ten seconds with this feeder stopped: what is left comes from elsewhere.",
        "Ask which machine beside it runs at that time.",
        "Look whether the feeder's mounts are bridged by dirt or a pipe.",
    ];

    public string Confirm => "It is confirmed where the vibration is there with this feeder stopped; it is refuted where it goes with it.";
}
