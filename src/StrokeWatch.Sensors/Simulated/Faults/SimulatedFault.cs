namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A fault of a simulated feeder.</summary>
/// <param name="Kind">Its kind, a name of <see cref="FaultTable"/>.</param>
/// <param name="Severity">How far it has gone, 0 (none) to 1; what that means in numbers each kind says.</param>
/// <param name="FromSeconds">When in the run it comes; 0 or less where the run begins with it.</param>
public sealed record SimulatedFault(string Kind, double Severity = 1, double FromSeconds = 0);
