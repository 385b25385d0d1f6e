using System.Device.I2c;
using System.Device.Spi;
using System.Globalization;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Sensors.Chips;

/// <summary>Chips on the buses of this board.</summary>
public static class ChipDevices
{
    private static readonly (ChipModel Model, SpiMode Mode, SpiAddressing Addressing, Func<IRegisters, ChipSettings, IChipDriver> Make)[] Table =
    [
        (ChipModels.Adxl357, SpiMode.Mode0, SpiAddressing.ReadBitLast, (registers, settings) => new Adxl357Driver(registers, settings)),
        (ChipModels.Kx134, SpiMode.Mode0, SpiAddressing.ReadBitFirst, (registers, settings) => new Kx134Driver(registers, settings)),
        (ChipModels.Adxl345, SpiMode.Mode3, SpiAddressing.ReadBitFirstMany, (registers, settings) => new Adxl345Driver(registers, settings)),
    ];

    /// <summary>Gives the opener of a chip; nothing is opened yet.</summary>
    /// <param name="settings">The chip as configured.</param>
    /// <param name="time">The clock.</param>
    /// <param name="tell">Hears in a sentence what is amiss with a chip that is used all the same.</param>
    public static IByteSourceOpener Opener(ChipSettings settings, TimeProvider time, Action<string>? tell = null) => new ChipOpener(settings, () => Connect(settings), time, tell);

    /// <summary>Gives the numbers of bus and line in a device file's name; null where it is none of the bus.</summary>
    public static (int Bus, int Line)? Parse(ChipBus bus, string device)
    {
        var prefix = bus == ChipBus.Spi ? "/dev/spidev" : "/dev/i2c-";
        if (!device.StartsWith(prefix, StringComparison.Ordinal))
        {
            return null;
        }

        var parts = device[prefix.Length..].Split('.');
        var numbers = parts.Select(part => int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : -1).ToList();
        return numbers.Contains(-1) || numbers.Count != (bus == ChipBus.Spi ? 2 : 1) ? null : (numbers[0], numbers[^1]);
    }

    /// <summary>Makes the driver of a chip on an I2C device.</summary>
    internal static IChipDriver Driver(ChipSettings settings, I2cDevice device) => Row(settings).Make(new I2cRegisters(device), settings);

    /// <summary>Makes the driver of a chip on an SPI device; what is held with it is let go with it.</summary>
    internal static IChipDriver Driver(ChipSettings settings, SpiDevice device, IDisposable? held = null) =>
        Row(settings).Make(new SpiRegisters(device, Row(settings).Addressing, held), settings);

    /// <summary>Says what stands in the way of a device file, where it is the file and not the chip; null where it is not.</summary>
    internal static (OpenFault Fault, string Words)? Trouble(ChipSettings settings, Exception fault)
    {
        var (group, switches) = settings.Bus == ChipBus.Spi ? ("spi", "dtparam=spi=on") : ("i2c", "dtparam=i2c_arm=on,i2c_arm_baudrate=400000, and the module i2c-dev");
        if (fault is FileNotFoundException || (fault is IOException && BusFault.Number(fault.Message) == 2))
        {
            return (OpenFault.Missing, $"{settings.Device}: not there; switch the bus on ({switches} in the board's config.txt), restart, and look with ls /dev/{group}*");
        }

        if (fault is IOException && fault.Message.Contains("used by another process", StringComparison.Ordinal))
        {
            return (OpenFault.Busy, $"{settings.Device}: in use by another program, perhaps the daemon; stop it first (systemctl stop strokewatch)");
        }

        return fault is UnauthorizedAccessException || (fault is IOException && BusFault.Number(fault.Message) == 13)
            ? (OpenFault.NoPermission, $"{settings.Device}: no permission; add this user to the group {group}, and log in again (a service: SupplementaryGroups={group})")
            : null;
    }

    /// <summary>Opens a chip's bus; it throws what a bus throws, and where the device file is missing or may not be opened.</summary>
    internal static IChipDriver Connect(ChipSettings settings)
    {
        if (Parse(settings.Bus, settings.Device) is not { } place)
        {
            throw new IOException($"{settings.Device} is no device file of that bus");
        }

        if (!File.Exists(settings.Device))
        {
            throw new FileNotFoundException(settings.Device);
        }

        // The bus classes open late and tell a missing right in a message of their own; opening here tells it plainly. A device file of SPI is one chip: it is kept for this program
        // alone, because a second reader would reset the chip under the first. One of I2C is a bus that chips share.
        var spi = settings.Bus == ChipBus.Spi;
        var handle = File.OpenHandle(settings.Device, FileMode.Open, FileAccess.ReadWrite, spi ? FileShare.None : FileShare.ReadWrite);
        if (spi)
        {
            return Driver(settings, SpiDevice.Create(new(place.Bus, place.Line) { ClockFrequency = settings.SpeedHz, Mode = Row(settings).Mode, DataBitLength = 8 }), handle);
        }

        handle.Dispose();
        return Driver(settings, I2cDevice.Create(new(place.Bus, settings.Address)));
    }

    private static (ChipModel Model, SpiMode Mode, SpiAddressing Addressing, Func<IRegisters, ChipSettings, IChipDriver> Make) Row(ChipSettings settings) =>
        Array.Find(Table, row => row.Model.Kind == settings.Model.Kind);
}
