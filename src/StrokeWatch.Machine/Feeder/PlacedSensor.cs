using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Machine.Feeder;

/// <summary>One of several sensors on a feeder.</summary>
/// <param name="Place">Where it sits; no other sensor of the feeder sits there.</param>
/// <param name="Columns">Its columns or channels in a capture, 1 to 3; empty where their own names tell.</param>
/// <param name="Sensor">What is known of it.</param>
public sealed record PlacedSensor(SensorPlace Place, IReadOnlyList<ColumnChoice> Columns, SensorDescription Sensor);
