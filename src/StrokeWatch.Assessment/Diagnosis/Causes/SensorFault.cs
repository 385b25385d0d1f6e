namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The sensor clips, sticks or is dead.</summary>
internal sealed class SensorFault : ICause
{
    public string Id => "sensor-fault";

    public string Words => "The sensor clips, sticks or is dead.";

    public string Physics => "Samples that stand at the end of the sensor's range (at its rail), or say one value again and again, are the sensor's and not the machine's.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } = [Only(Symptoms.Clipped), Only(Symptoms.Silent)];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Compare the sensor's range with the stroke: full scale should be at least twice the expected peak.",
        "Check plug, cable and supply of the sensor.",
        "Put another sensor in its place.",
    ];

    public string Confirm => "It is confirmed where another sensor of larger range measures; it is refuted where that one shows the same.";

    /// <summary>Gives a pattern in which one symptom rises and no other says anything: what a failing sensor reads is no news of the machine.</summary>
    private static Dictionary<string, Change> Only(string rises) =>
        Symptoms.All.ToDictionary(symptom => symptom.Id, symptom => symptom.Id == rises ? Change.Rises : Change.Any);
}
