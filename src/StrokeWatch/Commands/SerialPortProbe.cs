using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Commands;

/// <summary>Opens the port as the daemon would and listens: for a moment whether anything comes, and then, with a clock, for some seconds to what it says.</summary>
/// <param name="time">The clock; without one it listens for that moment alone.</param>
internal sealed class SerialPortProbe(TimeProvider? time = null) : IPortProbe
{
    /// <summary>A read waits 0.2 s; three seconds let a microcontroller start that opening the port has reset.</summary>
    private const int MostReads = 15;

    /// <inheritdoc/>
    public string? Trouble(SerialSettings port)
    {
        var opened = SerialPorts.Opener(port).Open();
        using var source = opened.Source;
        if (source is null)
        {
            return opened.Fault == OpenFault.Busy && PortHolder.Of(port.Path) is { Count: > 0 } holders ? $"{opened.Message}; it is {string.Join(" and ", holders)}{(holders.Any(one => one.StartsWith("strokewatch", StringComparison.Ordinal)) ? ": systemctl stop strokewatch" : "")}" : opened.Message;
        }

        var buffer = new byte[256];
        for (var read = 0; read < MostReads; read++)
        {
            switch (source.Read(buffer, out var count))
            {
                case ReadStatus.Data when count > 0:
                    return null;
                case ReadStatus.Closed:
                    return $"serial port {port.Path}: gone again as soon as it was opened; check cable and adapter";
            }
        }

        return $"serial port {port.Path}: open, but nothing comes; check the sensor's supply, its baud rate and its firmware";
    }

    /// <inheritdoc/>
    public PortFindings? Listen(SensorPort device, FeederDescription feeder) =>
        time is null ? null : new PortListener(feeder, time).Listen(device, SerialPorts.Opener(device.Port));
}
