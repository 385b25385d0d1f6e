using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The table of rules; a new rule is a new file and a line here.</summary>
public static class Rules
{
    /// <summary>The sentence that comes before hands go near the machine; after OSHA 29 CFR 1910.147(d).</summary>
    public const string Isolate = "Stop the feeder, isolate it and lock it out before hands go near; local rules and licensed persons come first.";

    /// <summary>The sentence that sends to the supply's voltage: the controller's own meter anybody may read, terminals only who is licensed.</summary>
    internal const string Voltage = "Compare the supply voltage with the nameplate, on the controller's own meter; at terminals only a licensed person measures.";

    private static readonly IRule[] All =
    [
        new ArmatureStrike(),
        new OverStroke(),
        new HighStroke(),
        new LowStroke(),
        new SensorClipped(),
        new SensorSilent(),
        new UnevenStroke(),
        new WideEllipse(),
        new SensorAskew(),
        new SensorClock(),
        new SamplesLost(),
    ];

    /// <summary>Says as evidence what the voltage has to do with a stroke out of its band; nothing where it is not known to have.</summary>
    internal static IEnumerable<string> OfSupply(AssessmentReport report) =>
        report.Supply?.Words is { } words ? [$"{char.ToUpperInvariant(words[0])}{words[1..]}."] : [];

    /// <summary>Gets the ids of the rules.</summary>
    public static IReadOnlyList<string> Ids { get; } = [.. All.Select(rule => rule.Id)];

    /// <summary>Applies every rule and gives what they find, most confident first.</summary>
    public static IReadOnlyList<Finding> Look(AssessmentReport report) =>
        [.. All.Select(rule => rule.Look(report)).OfType<Finding>().OrderByDescending(finding => finding.Confidence)];
}
