using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Sensors.Converters;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Commands;

/// <summary>Touches a serial port to see whether the daemon could use it.</summary>
internal interface IPortProbe
{
    /// <summary>Gives in a sentence which port, what stands in the way and what to do; null where all is well.</summary>
    string? Trouble(SerialSettings port);

    /// <summary>Listens to the device on a port for some seconds; null where this probe does not listen.</summary>
    PortFindings? Listen(SensorPort device, FeederDescription feeder) => null;

    /// <summary>Reads a converter for some seconds; gives the true rms in V at its input, or in a sentence why there is none.</summary>
    (double? Volts, string? Trouble) Convert(ConverterSettings converter) => (null, null);
}
