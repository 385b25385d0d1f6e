using StrokeWatch.Outputs.Captures;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Live;

namespace StrokeWatch.Page.Health;

/// <summary>How the station is at one instant: devices, outputs, store.</summary>
/// <param name="Sensors">The devices with sensors.</param>
/// <param name="Outputs">What forwards the store, by name.</param>
/// <param name="Store">How the store is.</param>
/// <param name="StoreBytes">What its files take; null where that cannot be told.</param>
/// <param name="FreeBytes">What is free beside them; null where that cannot be told.</param>
internal sealed record StationHealth(
    IReadOnlyList<SensorHealth> Sensors, IReadOnlyList<(string Name, ForwardingHealth Health)> Outputs, StoreHealth Store, long? StoreBytes, long? FreeBytes)
{
    /// <summary>Gets how the relay is; null where there is none.</summary>
    public RelayHealth? Relay { get; init; }

    /// <summary>Gets how waveforms of alarms are kept; null where none are.</summary>
    public CaptureHealth? Shelf { get; init; }

    /// <summary>Looks at it.</summary>
    public static StationHealth Of(PageSight sight, Waves.WaveTaps taps)
    {
        var (bytes, free) = Disk(sight.StorePath);
        return new(
            [.. sight.Sources.Select((source, i) => Of(source, taps.All[i]))],
            [.. sight.Outputs.Select(output => (output.Name, output.Health()))],
            sight.Store.Health, bytes, free)
        { Relay = sight.Relay(), Shelf = sight.Shelf() };
    }

    private static SensorHealth Of(LiveSensorSource source, Waves.SampleTap tap)
    {
        var (info, counters) = (source.Info, source.Counters);
        return new()
        {
            Places = [.. info.Places.Distinct().Select(SensorPlaces.Name)],
            Format = info.Format,
            RateHz = info.RateHz,
            MeasuredRateHz = source.MeasuredRateHz is > 0 and var measured ? measured : null,
            Samples = counters.Samples,
            Gaps = counters.Gaps,
            Missing = counters.MissingSamples,
            Reopenings = counters.Reopenings,
            SkippedBytes = counters.SkippedBytes,
            Clipped = tap.Clipped,
            AgeSeconds = tap.AgeSeconds,
            Rejected = counters.Rejected,
        };
    }

    private static (long? Bytes, long? Free) Disk(string path)
    {
        try
        {
            var full = Path.GetFullPath(path);
            return (((string[])["", "-wal", "-shm"]).Select(end => new FileInfo(full + end)).Where(file => file.Exists).Sum(file => file.Length), new DriveInfo(Path.GetDirectoryName(full)!).AvailableFreeSpace);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return (null, null);
        }
    }
}
