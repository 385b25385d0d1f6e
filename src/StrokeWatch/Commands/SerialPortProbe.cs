using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Commands;

/// <summary>Opens the port as the daemon would and listens for a moment.</summary>
internal sealed class SerialPortProbe : IPortProbe
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
            return opened.Message;
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
}
