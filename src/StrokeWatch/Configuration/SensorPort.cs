using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Configuration;

/// <summary>A device with one sensor, or several on one clock, as the daemon's configuration gives it.</summary>
/// <param name="Port">The serial port; of a chip on a bus of the board, the chip's name in its place.</param>
/// <param name="Sensor">How it speaks, and where its sensors sit.</param>
internal sealed record SensorPort(SerialSettings Port, SensorSettings Sensor)
{
    /// <summary>Gets the chip on a bus of the board; null where the device is on a serial port.</summary>
    public ChipSettings? Chip { get; init; }
}
