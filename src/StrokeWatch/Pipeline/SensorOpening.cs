using StrokeWatch.Configuration;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Pipeline;

/// <summary>Turns the configuration's words on the sensor into a live source.</summary>
internal static class SensorOpening
{
    /// <summary>Makes the source; nothing is opened until it is first read.</summary>
    public static LiveSensorSource Open(WatchConfiguration configuration, TimeProvider time, Action<SensorEvent> tell) =>
        LiveSensors.Make(configuration.Sensor, SerialPorts.Opener(configuration.Port), time, tell);
}
