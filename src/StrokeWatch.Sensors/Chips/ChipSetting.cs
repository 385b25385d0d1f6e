namespace StrokeWatch.Sensors.Chips;

/// <summary>A register and what it is set to.</summary>
/// <param name="Register">The address.</param>
/// <param name="Value">What is written.</param>
/// <param name="Name">The data sheet's name.</param>
/// <param name="Mask">The bits that must read back as written.</param>
internal readonly record struct ChipSetting(byte Register, byte Value, string Name, byte Mask = 0xFF)
{
    /// <summary>Writes settings in their order and reads each back; gives in a sentence which did not hold, null where all did.</summary>
    public static string? Settle(IRegisters registers, ReadOnlySpan<ChipSetting> settings)
    {
        foreach (ref readonly var setting in settings)
        {
            registers.Write(setting.Register, setting.Value);
        }

        return Check(registers, settings) is { } wrong ? $"{wrong}; it does not take its settings: check supply and wiring, or lower the bus speed" : null;
    }

    /// <summary>Reads settings back; gives the first that does not hold, null where all do.</summary>
    public static string? Check(IRegisters registers, ReadOnlySpan<ChipSetting> settings)
    {
        Span<byte> read = stackalloc byte[1];
        foreach (ref readonly var setting in settings)
        {
            registers.Read(setting.Register, read);
            if (((read[0] ^ setting.Value) & setting.Mask) != 0)
            {
                return $"{setting.Name} (0x{setting.Register:X2}) reads 0x{read[0]:X2}, set to 0x{setting.Value:X2}";
            }
        }

        return null;
    }
}
