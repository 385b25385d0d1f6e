namespace StrokeWatch.Outputs.Mqtt.Sparkplug;

/// <summary>A metric with its value.</summary>
/// <param name="Name">Its name, with slashes between levels.</param>
/// <param name="Type">The kind of its value.</param>
/// <param name="Value">A long, double, bool or string by its kind; null where it is not known.</param>
/// <param name="Unit">Its unit, said at birth; null where it has none.</param>
internal readonly record struct SparkplugMetric(string Name, SparkplugType Type, object? Value, string? Unit = null);
