using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Lines;

namespace StrokeWatch.Sensors.Live;

/// <summary>What the configuration says of a live sensor, so that it is known before the first sample comes.</summary>
public sealed record SensorSettings
{
    /// <summary>Gets the protocol's name, a row of <see cref="LiveSensors.Protocols"/>; <c>frames</c> by default.</summary>
    public string Protocol { get; init; } = LiveSensors.Frames;

    /// <summary>Gets the axes wanted of each sensor, in the order of the block's channels; x, y, z by default. A sensor that lacks one is turned down.</summary>
    public IReadOnlyList<Axis> Axes { get; init; } = [Axis.X, Axis.Y, Axis.Z];

    /// <summary>Gets the places of the device's sensors, each once, in the order in which it sends them; empty where it has one.</summary>
    public IReadOnlyList<SensorPlace> Places { get; init; } = [];

    /// <summary>Gets the rate expected in Hz; null takes what the sensor says, or measures it.</summary>
    public double? RateHz { get; init; }

    /// <summary>Gets the full scale expected in m/s², either sign; null takes what the sensor says.</summary>
    public double? FullScale { get; init; }

    /// <summary>Gets the meaning of text lines; its axes, rate and full scale are those given here. Frames say theirs themselves.</summary>
    public TextLineFormat Lines { get; init; } = new();
}
