using System.Globalization;
using StrokeWatch.Sensors.Chips;

namespace StrokeWatch.Sensors.Converters;

/// <summary>Whether a converter can be read as often as is asked.</summary>
/// <remarks>
/// A call of the system is taken as 50 µs on I2C and 20 µs on SPI, as in <see cref="BusBudget"/>. True rms needs no more than that samples fall evenly over the cycle: eight a cycle at least are asked for, so that
/// the harmonics that a controller makes, up to the seventh, are not all folded onto a few points (common practice, no source).
/// </remarks>
public static class ConverterBudget
{
    /// <summary>The least samples a cycle of the mains.</summary>
    public const double LeastACycle = 8;

    private const double MostShare = 0.6;

    /// <summary>Gives the share of the bus that the reads take.</summary>
    public static double Share(ConverterSettings settings) =>
        settings.RateHz * (settings.Model.ReadBits / (double)settings.SpeedHz + (settings.Model.Bus == ChipBus.I2c ? 50e-6 : 20e-6));

    /// <summary>Gives the most reads a second that converter and bus take, in Hz.</summary>
    public static double MostHz(ConverterSettings settings) => Math.Min(settings.Model.MostHz, settings.RateHz * MostShare / Share(settings));

    /// <summary>Gives in a sentence why the settings do not fit; null where they do.</summary>
    public static string? Trouble(ConverterSettings settings)
    {
        var (most, least) = (MostHz(settings), LeastACycle * settings.MainsHz);
        return settings.RateHz > most * (1 + 1e-9)
            ? string.Create(CultureInfo.InvariantCulture, $"{settings.RateHz:0} reads a second are more than the {settings.Model.Name} and its bus at {settings.SpeedHz / 1e3:0} kHz take ({most:0}); lower `rate_hz`{(most < least ? ", or raise `speed_hz`" : "")}")
            : settings.RateHz < least
                ? string.Create(CultureInfo.InvariantCulture, $"{settings.RateHz:0} reads a second are fewer than {LeastACycle:0} a cycle of {settings.MainsHz:0.##} Hz; {least:0} or more were expected")
                : null;
    }
}
