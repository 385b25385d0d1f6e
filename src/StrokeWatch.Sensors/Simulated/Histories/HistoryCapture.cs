namespace StrokeWatch.Sensors.Simulated.Histories;

/// <summary>One capture of a simulated history.</summary>
/// <param name="Recorded">When it is taken.</param>
/// <param name="Severity">How far the fault has gone then; 0 before it comes.</param>
/// <param name="Scenario">What happens in it.</param>
public sealed record HistoryCapture(DateTimeOffset Recorded, double Severity, FeederScenario Scenario);
