using System.Buffers.Binary;
using System.Device.I2c;
using Iot.Device.Ads1115;

namespace StrokeWatch.Sensors.Converters;

/// <summary>ADS1115 (16 bits) on I2C, set up by the binding of Iot.Device.Bindings: it converts by itself, and a read gives the newest conversion.</summary>
/// <remarks>
/// The binding sets input, range and rate, waits until a conversion of them is there and switches the comparator off. It neither reads its settings back nor reads a conversion in one transaction: between its two another
/// program on the bus (<c>strokewatch check</c>) may turn the pointer. Both are done here, the first before each second's value is believed too, because a dip of the supply puts the chip back to its own settings, and then the last conversion stays.
/// Data sheet SBAS444 (from memory), section 8.6: conversion register 0, configuration register 1: bit 15 start, bits 14:12 input (4 + channel: single-ended), bits 11:9 gain, bit 8 mode (0: by itself),
/// bits 7:5 rate (7: 860 a second), bits 1:0 comparator (3: off). Most significant byte first.
/// </remarks>
internal sealed class Ads1115Driver(I2cDevice device, ConverterSettings settings) : IConverterDriver
{
    private const byte Conversion = 0, Configuration = 1;
    private const ushort FastestByItself = (7 << 5) | 3;
    private static readonly InputMultiplexer[] Inputs = [InputMultiplexer.AIN0, InputMultiplexer.AIN1, InputMultiplexer.AIN2, InputMultiplexer.AIN3];

    private static readonly MeasuringRange[] Gains =
        [MeasuringRange.FS6144, MeasuringRange.FS4096, MeasuringRange.FS2048, MeasuringRange.FS1024, MeasuringRange.FS0512, MeasuringRange.FS0256];

    private readonly int gain = ConverterRanges.Ads1115.ToList().IndexOf(settings.RangeVolts);

    private int Wanted => ((4 + settings.Channel) << 12) | (gain << 9) | FastestByItself;

    /// <inheritdoc/>
    public string? Start()
    {
        try
        {
            // Not disposed of, or it would set up a chip once more that may be gone; it holds nothing but the device.
            _ = new Ads1115(device, Inputs[settings.Channel], Gains[gain], DataRate.SPS860, DeviceMode.Continuous);
        }
        catch (TimeoutException)
        {
            return "the converter never ends a conversion: another chip at that address, or a supply that dips; check `address` and supply";
        }

        return Kept ? null : "the converter does not keep its settings: another chip at that address, or a supply that dips; check `address` and supply";
    }

    /// <inheritdoc/>
    public double? Read()
    {
        var code = (short)Register(Conversion);
        return code is short.MaxValue or short.MinValue ? null : code * settings.RangeVolts / 32768;
    }

    /// <inheritdoc/>
    public string? Doubt() => Kept ? null : "the converter has lost its settings (its supply dipped, or another program set it): check its supply";

    /// <inheritdoc/>
    public void Dispose() => device.Dispose();

    /// <summary>Gets whether the settings stand; bit 15 says on reading whether a conversion is under way.</summary>
    private bool Kept => (Register(Configuration) & 0x7FFF) == Wanted;

    private ushort Register(byte register)
    {
        Span<byte> address = [register], read = stackalloc byte[2];
        device.WriteRead(address, read);
        return BinaryPrimitives.ReadUInt16BigEndian(read);
    }
}
