using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline.Alarms;

namespace StrokeWatch.Page;

/// <summary>All that a reader may know at one instant.</summary>
/// <param name="Feeder">The feeder.</param>
/// <param name="Utc">The instant, in UTC.</param>
/// <param name="Reading">The newest window; null before the first.</param>
/// <param name="AgeSeconds">How long ago anything was last heard of the tray; null before that.</param>
/// <param name="Alarms">The alarms that anything has happened to.</param>
/// <param name="Store">How the store is.</param>
internal sealed record BoardStatus(
    FeederDescription Feeder, DateTimeOffset Utc, BoardReading? Reading, double? AgeSeconds, IReadOnlyList<AlarmView> Alarms, StoreHealth Store)
{
    /// <summary>The age in seconds beyond which a reading no longer tells how the feeder is: what is shown must look old before the sensor has been silent for two seconds.</summary>
    public const double StaleSeconds = 1.7;

    /// <summary>Gets whether anybody can sign in.</summary>
    public bool CanSignIn { get; init; }

    /// <summary>Gets whether there is no reading, or an old one.</summary>
    public bool Stale => !(AgeSeconds <= StaleSeconds);
}
