using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Machine.Feeder;

/// <summary>The stroke that the model asks for, peak to peak along the line of action, empty tray, full voltage.</summary>
/// <param name="Low">Bottom of the band.</param>
/// <param name="High">Top of the band.</param>
/// <param name="Limit">Over-stroke limit: above it the machine is damaged.</param>
public sealed record StrokeBand(Length Low, Length High, Length Limit);
