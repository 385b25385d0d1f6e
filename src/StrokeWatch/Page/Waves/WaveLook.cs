using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Page.Waves;

/// <summary>One sensor's last second: its samples, corrected as the chain corrects them, and the portrait of its motion.</summary>
internal sealed record WaveLook
{
    /// <summary>Gets when it was taken, in UTC.</summary>
    public required DateTimeOffset Utc { get; init; }

    /// <summary>Gets the sensor's place; null where there is one sensor.</summary>
    public SensorPlace? Place { get; init; }

    /// <summary>Gets the rate in Hz; null where nothing came.</summary>
    public double? RateHz { get; init; }

    /// <summary>Gets the axes.</summary>
    public IReadOnlyList<Axis> Axes { get; init; } = [];

    /// <summary>Gets the samples in m/s², one array an axis.</summary>
    public IReadOnlyList<double[]> Samples { get; init; } = [];

    /// <summary>Gets the portrait; null where there is none, for <see cref="Reason"/>.</summary>
    public WindowPortrait? Portrait { get; init; }

    /// <summary>Gets why something is lacking; null where nothing is.</summary>
    public string? Reason { get; init; }

    /// <summary>Takes a look.</summary>
    /// <param name="feeder">The feeder, with the sensors of that device alone.</param>
    /// <param name="snapshot">The samples; null where none came.</param>
    /// <param name="place">Which of several sensors.</param>
    /// <param name="window">The newest window, which knows the drive's frequency; null where there is none.</param>
    /// <param name="utc">The instant.</param>
    public static WaveLook Of(FeederDescription feeder, SampleSnapshot? snapshot, SensorPlace? place, WindowReading? window, DateTimeOffset utc)
    {
        if (snapshot is null)
        {
            return new() { Utc = utc, Place = place, Reason = "no whole second of samples came: the sensor is silent, has gaps, or does not know its rate yet" };
        }

        try
        {
            var settings = ChainSettings.For(feeder, snapshot.Info, snapshot.RateHz);
            var repair = new SampleRepair(feeder, settings, snapshot.Info.NumberRail);
            var block = snapshot.Block();
            repair.Apply(block);
            settings = repair.Settings;
            var samples = Enumerable.Range(0, block.Channels).Select(channel => block[channel].ToArray()).ToArray();
            if (settings.Stations.FirstOrDefault(station => station.Place == place) is { Channels: > 0 } own)
            {
                samples = samples[own.FirstChannel..(own.FirstChannel + own.Channels)];
                settings = SensorChannels.Only(settings, own);
            }

            var look = new WaveLook { Utc = utc, Place = place, RateHz = snapshot.RateHz, Axes = settings.Axes, Samples = samples };
            if (window is not { FrequencyHz: { } frequency, StrokeMetres: not null, Motion: MotionState.Running })
            {
                return look with { Reason = window?.Motion == MotionState.Stopped ? "the feeder stands still" : window?.Reason ?? "nothing has been measured yet" };
            }

            var cycles = frequency / (snapshot.RateHz * (1 + (window.Value.ClockError ?? 0)));
            var count = Math.Min(samples[0].Length, (int)Math.Round(Math.Floor(samples[0].Length * cycles) / cycles));
            var portrait = WindowPortrait.Take(settings, [.. samples.Select(channel => channel[^count..])], cycles);
            return look with { Portrait = portrait, Reason = portrait is null ? "the motion of this second could not be fitted" : null };
        }
        catch (CaptureException trouble)
        {
            return new() { Utc = utc, Place = place, Reason = trouble.Message };
        }
    }
}
