namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A sensor on a foot that no longer sits flat: a spring, and play against its screw.</summary>
/// <param name="FrequencyHz">Natural frequency of the sensor on its foot.</param>
/// <param name="PlayMetres">How far it can lift before the screw's head stops it.</param>
internal sealed record LooseMounting(double FrequencyHz, double PlayMetres);
