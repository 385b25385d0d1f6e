using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Configuration;

/// <summary>A feeder class of the models file; what it leaves open the feeder file must give.</summary>
/// <param name="Name">The name a feeder file refers to.</param>
/// <param name="SupplyHz">Mains frequency in Hz, if the class has only one.</param>
/// <param name="StrokesPerCycle">1 for half-wave, 2 for full-wave, if given.</param>
/// <param name="Low">Bottom of the band, if given.</param>
/// <param name="High">Top of the band, if given.</param>
/// <param name="Limit">Over-stroke limit, if given.</param>
internal sealed record ModelRow(string Name, double? SupplyHz, int? StrokesPerCycle, Length? Low, Length? High, Length? Limit);
