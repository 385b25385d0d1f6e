using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Frames;
using StrokeWatch.Sensors.Lines;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Sensors.Live;

/// <summary>The table of protocols that live sensors speak.</summary>
public static class LiveSensors
{
    /// <summary>The name of our own framed protocol.</summary>
    public const string Frames = "frames";

    /// <summary>The name of plain text lines.</summary>
    public const string Lines = "lines";

    private const int MostAxes = 3;

    private static readonly (string Name, Func<SensorSettings, SourceCounters, TimeProvider, ISampleDecoder> Make)[] Table =
    [
        (Frames, (_, counters, _) => new FrameDecoder(counters)),
        (Lines, (settings, counters, time) => new TextLineDecoder(FormatOf(settings), counters, time)),

        // Chips on a bus are given out as frames, under their own names.
        .. ChipModels.All.Select(model => (model.Kind, (Func<SensorSettings, SourceCounters, TimeProvider, ISampleDecoder>)((_, counters, _) => new FrameDecoder(counters)))),
    ];

    /// <summary>Gets the names of the protocols of serial ports.</summary>
    public static IReadOnlyList<string> Protocols { get; } = [Frames, Lines];

    /// <summary>
    /// Makes a source that reads a sensor through the opener and tells what happens to it; the first read opens the port. An
    /// <see cref="ArgumentException"/> says that the settings name no protocol, no axis, or an axis or a place twice.
    /// </summary>
    public static LiveSensorSource Make(SensorSettings settings, IByteSourceOpener opener, TimeProvider time, Action<SensorEvent>? tell = null)
    {
        var row = Array.Find(Table, row => row.Name == settings.Protocol);
        if (row.Make is null)
        {
            throw new ArgumentException($"sensor protocol {settings.Protocol}: not known; use {string.Join(" or ", Protocols)}", nameof(settings));
        }

        if (settings.Axes.Count is 0 or > MostAxes || settings.Axes.Distinct().Count() != settings.Axes.Count)
        {
            throw new ArgumentException("sensor axes: give one to three different ones of x, y, z", nameof(settings));
        }

        if (settings.Places.Count > SampleRun.MostSensors || settings.Places.Distinct().Count() != settings.Places.Count)
        {
            throw new ArgumentException("sensor places: give one to eight different ones", nameof(settings));
        }

        var counters = new SourceCounters();
        return new(opener, row.Make(settings, counters, time), InfoOf(settings), counters, time, tell);
    }

    private static SourceInfo InfoOf(SensorSettings settings) => new()
    {
        Format = settings.Protocol,
        Axes = [.. Enumerable.Repeat(settings.Axes, Math.Max(1, settings.Places.Count)).SelectMany(axes => axes)],
        Places = [.. settings.Places.SelectMany(place => Enumerable.Repeat(place, settings.Axes.Count))],
        RateHz = settings.RateHz,
        RateFrom = settings.RateHz is null ? RateOrigin.Sensor : RateOrigin.Option,
        Unit = settings.Protocol == Lines ? settings.Lines.Unit : AccelerationUnit.Counts,
        FullScale = settings.FullScale,
    };

    private static TextLineFormat FormatOf(SensorSettings settings) =>
        settings.Lines with { Axes = settings.Axes, Sensors = Math.Max(1, settings.Places.Count), RateHz = settings.RateHz, FullScale = settings.FullScale };
}
