namespace StrokeWatch.Sensors.Chips;

/// <summary>A rate that a chip can be set to.</summary>
/// <param name="Hz">Nominal samples a second of each axis.</param>
/// <param name="Code">The bits that select it.</param>
public readonly record struct ChipRate(double Hz, byte Code);
