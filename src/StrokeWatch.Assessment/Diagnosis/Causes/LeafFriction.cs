namespace StrokeWatch.Assessment.Diagnosis.Causes;

/// <summary>The leaves rub on each other: dirt, rust or lubricant between them.</summary>
internal sealed class LeafFriction : ICause
{
    public string Id => "leaf-friction";

    public string Words => "The leaves rub on each other: dirt, rust or lubricant between them.";

    public string Physics => "Movement dies away faster while natural frequency, pull and line of action stay; a feeder that runs near the frequency at which it moves most (resonance) loses stroke.";

    public IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; } =
    [
        new Dictionary<string, Change>
        {
            [Symptoms.Natural] = Change.MayMove,
            [Symptoms.Damping] = Change.Rises,
            [Symptoms.Pull] = Change.MayMove,
            [Symptoms.Stroke] = Change.MayFall,
            [Symptoms.Second] = Change.MayMove,
            [Symptoms.SecondPhase] = Change.MayMove,
            [Symptoms.Across] = Change.MayMove,
        },
    ];

    public IReadOnlyList<string> CheckFirst { get; } =
    [
        "Look, hands off, for dust, rust or grease between the leaves.",
        "Take the stack apart with the tray propped; clean and dry leaves and spacers. Never oil them.",
        "Put spacers back between leaves where the manual shows them.",
    ];

    public string Confirm => "It is confirmed where a coast-down dies away more slowly after cleaning (less damping); it is refuted where it does not.";
}
