using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Stations;

/// <summary>What of a sensor enters the one reading that is judged.</summary>
/// <param name="Place">Where it sits.</param>
/// <param name="OwnUncertainty">The relative standard uncertainty that is its own.</param>
/// <param name="SharedUncertainty">The relative standard uncertainty that it shares with the other sensors.</param>
public readonly record struct StationTraits(SensorPlace Place, double OwnUncertainty, double SharedUncertainty)
{
    /// <summary>Gets whether it sits on the tray.</summary>
    public bool OnTray => SensorPlaces.IsOnTray(Place);

    /// <summary>Gives those of a sensor as the meter knows it.</summary>
    public static StationTraits Of(StationSettings station) =>
        new(station.Place, StationContributions.Own(station.Contributions), StationContributions.Shared(station.Contributions));
}
