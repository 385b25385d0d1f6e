using System.Buffers.Binary;
using System.Device.I2c;

namespace StrokeWatch.Sensors.Converters;

/// <summary>ADS1115 (16 bits) on I2C: it converts by itself, and a read gives the newest conversion.</summary>
/// <remarks>
/// Data sheet SBAS444 (from memory), section 8.6: conversion register 0, configuration register 1: bit 15 start, bits 14:12 input (4 + channel: single-ended), bits 11:9 gain, bit 8 mode (0: by itself),
/// bits 7:5 rate (7: 860 a second), bits 1:0 comparator (3: off). Most significant byte first.
/// </remarks>
internal sealed class Ads1115Driver(I2cDevice device, ConverterSettings settings) : IConverterDriver
{
    private const byte Conversion = 0, Configuration = 1;
    private const ushort FastestByItself = (7 << 5) | 3;

    private ushort Wanted => (ushort)(((4 + settings.Channel) << 12) | (ConverterRanges.Ads1115.ToList().IndexOf(settings.RangeVolts) << 9) | FastestByItself);

    /// <inheritdoc/>
    public string? Start()
    {
        Span<byte> write = [Configuration, 0, 0];
        BinaryPrimitives.WriteUInt16BigEndian(write[1..], Wanted);
        device.Write(write);

        // Bit 15 says on reading whether a conversion is under way.
        return (Register(Configuration) & 0x7FFF) == Wanted ? null : "the converter does not keep its settings: another chip at that address, or a supply that dips; check `address` and supply";
    }

    /// <inheritdoc/>
    public double? Read()
    {
        var code = (short)Register(Conversion);
        return code is short.MaxValue or short.MinValue ? null : code * settings.RangeVolts / 32768;
    }

    /// <inheritdoc/>
    public void Dispose() => device.Dispose();

    private ushort Register(byte register)
    {
        Span<byte> address = [register], read = stackalloc byte[2];
        device.WriteRead(address, read);
        return BinaryPrimitives.ReadUInt16BigEndian(read);
    }
}
