using StrokeWatch.Configuration;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Pipeline;

/// <summary>Turns the configuration's words on a device into a live source.</summary>
internal static class SensorOpening
{
    /// <summary>Makes the source; nothing is opened until it is first read.</summary>
    public static LiveSensorSource Open(SensorPort port, TimeProvider time, Action<SensorEvent> tell) =>
        LiveSensors.Make(
            port.Sensor,
            port.Chip is { } chip ? ChipDevices.Opener(chip, time, words => tell(new(SensorEventKind.Contradiction, 0, words))) : SerialPorts.Opener(port.Port),
            time,
            tell);
}
