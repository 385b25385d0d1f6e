namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The table of faults; a new kind is a new file and a line here.</summary>
public static class FaultTable
{
    private static readonly IFaultKind[] All =
    [
        new LeafCracked(front: true),
        new LeafCracked(front: false),
        new LeafMissing(front: true),
        new LeafMissing(front: false),
        new TrayHeavier(),
        new TrayLighter(),
        new TrayCracked(),
        new TrayRubbing(),
        new ClampLoose(),
        new SupplyWrong(high: false),
        new SupplyWrong(high: true),
        new PhaseCutWrong(),
        new AirGapSmall(),
        new AirGapUneven(),
        new ReverseSide(),
        new LeafFriction(),
        new SensorLoose(),
        new SensorClipped(),
        new SensorFails(dead: false),
        new SensorFails(dead: true),
        new NeighbourMachine(),
        new StrokeUneven(),
        new DriveDead(),
        new DriveOutOfPhase(),
    ];

    /// <summary>Gets the names of all kinds.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. All.Select(kind => kind.Name)];

    /// <summary>Says what a severity of 0 to 1 of a kind means, in a sentence.</summary>
    public static string Meaning(string name) => Of(name).Meaning;

    /// <summary>Says whether a feeder has a kind of fault from its commissioning on.</summary>
    public static bool FromCommissioning(string name) => Of(name).FromCommissioning;

    /// <summary>Gives a scenario as it was commissioned: with those of its faults that were there then, and no others.</summary>
    internal static FeederScenario Commissioned(FeederScenario scenario) => Apply(scenario, fault => FromCommissioning(fault.Kind));

    /// <summary>Gives a scenario with the faults in it that have come by a time in seconds.</summary>
    internal static FeederScenario At(FeederScenario scenario, double seconds) => Apply(scenario, fault => fault.FromSeconds <= Math.Max(0, seconds));

    private static IFaultKind Of(string name) =>
        Array.Find(All, kind => kind.Name == name) ?? throw new ArgumentException($"There is no fault `{name}`; known are {string.Join(", ", Names)}.", nameof(name));

    private static FeederScenario Apply(FeederScenario scenario, Func<SimulatedFault, bool> wanted) =>
        scenario.Faults.Where(wanted).Aggregate(scenario, (changed, fault) => Of(fault.Kind).Apply(changed, Math.Clamp(fault.Severity, 0, 1)));
}
