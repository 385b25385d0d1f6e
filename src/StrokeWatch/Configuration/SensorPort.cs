using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Configuration;

/// <summary>A device with one sensor, or several on one clock, as the daemon's configuration gives it.</summary>
/// <param name="Port">The serial port.</param>
/// <param name="Sensor">How it speaks, and where its sensors sit.</param>
internal sealed record SensorPort(SerialSettings Port, SensorSettings Sensor);
