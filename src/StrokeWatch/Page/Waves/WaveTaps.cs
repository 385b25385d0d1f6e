using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Page.Waves;

/// <summary>The taps of all devices, and looks at what they hold: one look a sensor and half a second, however many ask.</summary>
/// <param name="feeder">The feeder.</param>
/// <param name="sources">The devices.</param>
/// <param name="window">Gives the newest window.</param>
/// <param name="time">The clock.</param>
internal sealed class WaveTaps(FeederDescription feeder, IReadOnlyList<ISampleSource> sources, Func<WindowReading?> window, TimeProvider time)
{
    private const double LeastSeconds = 1;
    private static readonly TimeSpan Fresh = TimeSpan.FromSeconds(0.5);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2.5);
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(0.1);

    private readonly Lock gate = new();
    private readonly Dictionary<SensorPlace, (long At, Task<WaveLook> Look)> looks = [];
    private (long At, Task<WaveLook> Look)? only;

    /// <summary>Gets the taps, one a device.</summary>
    public IReadOnlyList<SampleTap> All { get; } = [.. sources.Select(_ => new SampleTap(time))];

    /// <summary>Gets the places that may be asked for, the tray's first; empty where there is one sensor.</summary>
    public IReadOnlyList<SensorPlace> Places { get; } = [.. sources.SelectMany(source => source.Info.Places).Distinct().OrderBy(place => !SensorPlaces.IsOnTray(place))];

    /// <summary>Gets how long ago samples came from any device, in seconds; null before the first. Allocates nothing.</summary>
    public double? AgeSeconds
    {
        get
        {
            double? least = null;
            for (var i = 0; i < All.Count; i++)
            {
                least = All[i].AgeSeconds is { } age && !(age >= least) ? age : least;
            }

            return least;
        }
    }

    /// <summary>Takes a block of a device.</summary>
    public void Take(int device, SampleBlock block, SourceInfo info) => All[device].Take(block, info);

    /// <summary>Gives what takes the blocks of the only device.</summary>
    public IBlockListener Only(ISampleSource source) => new OneDevice(this, source);

    /// <summary>Looks at a sensor; the first of the places where none is named. Waits a while for samples to be collected.</summary>
    public Task<WaveLook> Look(SensorPlace? place)
    {
        place ??= Places.Count > 0 ? Places[0] : null;
        lock (gate)
        {
            var last = place is { } named ? looks.TryGetValue(named, out var known) ? known : null : only;
            if (last is { } taken && (!taken.Look.IsCompleted || time.GetElapsedTime(taken.At) < Fresh))
            {
                return taken.Look;
            }

            var look = Task.Run(() => Collect(place));
            if (place is { } at)
            {
                looks[at] = (time.GetTimestamp(), look);
            }
            else
            {
                only = (time.GetTimestamp(), look);
            }

            return look;
        }
    }

    private async Task<WaveLook> Collect(SensorPlace? place)
    {
        var device = place is { } known ? Enumerable.Range(0, sources.Count).First(i => sources[i].Info.Places.Contains(known)) : 0;
        var part = sources.Count == 1 ? feeder : feeder with { Sensors = [.. feeder.Sensors.Where(sensor => sources[device].Info.Places.Contains(sensor.Place))] };
        var began = time.GetTimestamp();
        var snapshot = All[device].Ask(LeastSeconds);
        while (snapshot is null && time.GetElapsedTime(began) < Patience)
        {
            await Task.Delay(Pause, time).ConfigureAwait(false);
            snapshot = All[device].Ask(LeastSeconds);
        }

        return WaveLook.Of(part, snapshot, place, window(), time.GetUtcNow());
    }

    private sealed class OneDevice(WaveTaps taps, ISampleSource source) : IBlockListener
    {
        public void Take(SampleBlock block) => taps.Take(0, block, source.Info);
    }
}
