using StrokeWatch.Configuration;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Lines;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Pipeline;

/// <summary>Turns the configuration's words on the sensor into a live source.</summary>
internal static class SensorOpening
{
    /// <summary>Makes the source; nothing is opened until it is first read.</summary>
    public static LiveSensorSource Open(Configuration.SensorSettings sensor, TimeProvider time, Action<SensorEvent> tell) =>
        LiveSensors.Make(
            new Sensors.Live.SensorSettings
            {
                Protocol = sensor.Protocol == SensorProtocol.Lines ? LiveSensors.Lines : LiveSensors.Frames,
                Axes = sensor.Axes,
                RateHz = sensor.RateHz,
                FullScale = sensor.FullScale,
                Lines = new TextLineFormat
                {
                    Unit = sensor.Unit ?? AccelerationUnit.G,
                    CountScale = sensor.CountsPerG is { } perG ? Gravity.Standard / perG : 1,
                },
            },
            SerialPorts.Opener(new SerialSettings { Path = sensor.Port, BaudRate = sensor.Baud }),
            time,
            tell);
}
