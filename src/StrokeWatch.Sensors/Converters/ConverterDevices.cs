using System.Device.I2c;
using System.Device.Spi;
using StrokeWatch.Sensors.Chips;

namespace StrokeWatch.Sensors.Converters;

/// <summary>Converters on the buses of this board.</summary>
internal static class ConverterDevices
{
    /// <summary>Marks a fault whose message is for people and says what to do.</summary>
    private const int ToldAlready = unchecked((int)0xA0000001);

    /// <summary>Makes the fault of a converter that answers, but not as it should.</summary>
    public static IOException Fault(string words) => new(words, ToldAlready);

    /// <summary>Opens a converter's bus; it throws what a bus throws, and where the device file is missing or may not be opened.</summary>
    public static IConverterDriver Connect(ConverterSettings settings)
    {
        if (!File.Exists(settings.Device))
        {
            throw new FileNotFoundException(settings.Device);
        }

        var (bus, line) = ChipDevices.Parse(settings.Model.Bus, settings.Device) ?? throw new IOException($"{settings.Device} is no device file of that bus");
        var spi = settings.Model.Bus == ChipBus.Spi;
        var handle = File.OpenHandle(settings.Device, FileMode.Open, FileAccess.ReadWrite, spi ? FileShare.None : FileShare.ReadWrite);
        if (spi)
        {
            return new Mcp3208Driver(SpiDevice.Create(new(bus, line) { ClockFrequency = settings.SpeedHz, Mode = SpiMode.Mode0, DataBitLength = 8 }), settings, handle);
        }

        handle.Dispose();
        return new Ads1115Driver(I2cDevice.Create(new(bus, settings.Address)), settings);
    }

    /// <summary>Gives in a sentence what a failure means and what to do.</summary>
    public static string Words(ConverterSettings settings, Exception fault)
    {
        var group = settings.Model.Bus == ChipBus.Spi ? "spi" : "i2c";
        return fault is FileNotFoundException ? $"{settings.Device} is not there; switch the bus on in the board's configuration and look with ls /dev/{group}*"
            : fault is UnauthorizedAccessException ? $"{settings.Device} may not be opened; add this user to the group {group} (a service: SupplementaryGroups={group})"
            : fault is IOException && fault.Message.Contains("used by another process", StringComparison.Ordinal) ? $"{settings.Device} is in use by another program; stop it first"
            : fault is IOException { HResult: ToldAlready } ? fault.Message
            : BusFault.Words(fault);
    }
}
