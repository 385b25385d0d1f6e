using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Configuration;

/// <summary>What came of reading a scenario file.</summary>
/// <param name="Scenario">The scenario; null where anything is wrong.</param>
/// <param name="Errors">Every error, one line each.</param>
internal sealed record ScenarioReading(FeederScenario? Scenario, IReadOnlyList<string> Errors);
