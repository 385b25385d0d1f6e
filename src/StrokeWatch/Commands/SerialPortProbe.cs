using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Sensors.Converters;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Commands;

/// <summary>Opens the port as the daemon would and listens: for a moment whether anything comes, and then, with a clock, for some seconds to what it says.</summary>
/// <param name="time">The clock; without one it listens for that moment alone.</param>
internal sealed class SerialPortProbe(TimeProvider? time = null) : IPortProbe
{
    /// <summary>A read waits 0.2 s; three seconds let a microcontroller start that opening the port has reset.</summary>
    private const int MostReads = 15;

    /// <summary>A converter needs a second for its first value.</summary>
    private const int MostLooks = 40, FewestLooks = 25;

    private static readonly TimeSpan Look = TimeSpan.FromSeconds(0.1), Whole = TimeSpan.FromSeconds(3);

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
    public (double? Volts, string? Trouble) Convert(ConverterSettings converter)
    {
        if (time is null)
        {
            return (null, null);
        }

        using var meter = new SupplyMeter(converter, time, _ => { });
        using var never = new ManualResetEvent(false);
        for (var look = 0; look < MostLooks && meter.Volts(Whole) is null && (meter.Trouble is null || look < FewestLooks); look++)
        {
            _ = never.WaitOne(Look);
        }

        return meter.Volts(Whole) is { } volts ? (volts, null) : (null, meter.Trouble);
    }

    /// <inheritdoc/>
    public PortFindings? Listen(SensorPort device, FeederDescription feeder) =>
        time is null ? null : new PortListener(feeder, time).Listen(device, SerialPorts.Opener(device.Port));
}
