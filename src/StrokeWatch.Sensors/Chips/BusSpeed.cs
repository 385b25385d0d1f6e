using System.Buffers.Binary;
using System.Globalization;

namespace StrokeWatch.Sensors.Chips;

/// <summary>The clock of an I2C bus as the board was started with: the device tree's <c>clock-frequency</c>, four bytes, most significant first.</summary>
public static class BusSpeed
{
    /// <summary>Reads the clock in Hz of an I2C bus; null where the system does not tell.</summary>
    /// <param name="bus">The number in <c>/dev/i2c-1</c>.</param>
    /// <param name="root">Where the system's devices are listed; another folder for tests.</param>
    public static int? OfI2c(int bus, string root = "/sys")
    {
        var node = Path.Combine(root, "bus", "i2c", "devices", string.Create(CultureInfo.InvariantCulture, $"i2c-{bus}"));
        foreach (var file in new[] { Path.Combine(node, "of_node", "clock-frequency"), Path.Combine(node, "device", "of_node", "clock-frequency") })
        {
            try
            {
                if (File.Exists(file) && File.ReadAllBytes(file) is { Length: 4 } bytes)
                {
                    return (int)Math.Min(BinaryPrimitives.ReadUInt32BigEndian(bytes), int.MaxValue);
                }
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
            {
                return null;
            }
        }

        return null;
    }
}
