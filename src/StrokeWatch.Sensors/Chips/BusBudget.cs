using System.Globalization;

namespace StrokeWatch.Sensors.Chips;

/// <summary>The arithmetic of rate, bytes, bus clock and the time that a chip's store lasts.</summary>
/// <remarks>
/// I2C: 9 bits a byte (8 and the acknowledgement) and 30 for the head of a read (address, register, address; start, repeated start, stop): I2C-bus specification
/// UM10204, section 3.1. SPI: 8 bits a byte and a command byte. System calls and what the kernel does about them are taken as 50 µs a transaction on I2C and 20 µs on SPI: assumed, not measured.
/// A drain must not be late by more than the store lasts less the time that reading it takes. Below 5 ms of slack, or above 60 % of the bus, nothing is left for a kernel without real time,
/// below 10 ms little: common practice, no source.
/// </remarks>
public static class BusBudget
{
    /// <summary>The slack in s below which a configuration is refused.</summary>
    public const double LeastSlackSeconds = 0.005;

    /// <summary>The slack in s below which it is called tight.</summary>
    public const double TightSlackSeconds = 0.010;

    /// <summary>The share of the bus above which a configuration is refused.</summary>
    public const double MostShare = 0.6;

    /// <summary>How often a store is drained while it could fill once.</summary>
    public const int DrainsAFifo = 4;

    private const int I2cHeadBits = 30;
    private const double I2cCallSeconds = 50e-6;
    private const double SpiCallSeconds = 20e-6;

    /// <summary>Works out the load of a configured chip.</summary>
    public static BusLoad Of(ChipSettings settings) => Of(settings.Model, settings.Bus, settings.SpeedHz, settings.Rate.Hz);

    /// <summary>Works out the load of a chip on a bus with a clock in Hz, at a rate in Hz.</summary>
    public static BusLoad Of(ChipModel model, ChipBus bus, double busHz, double rateHz)
    {
        var byteBits = bus == ChipBus.I2c ? 9 : 8;
        var headBits = bus == ChipBus.I2c ? I2cHeadBits : 8;
        var call = bus == ChipBus.I2c ? I2cCallSeconds : SpiCallSeconds;
        double sampleBits = model.SampleBytes * byteBits;
        var payload = rateHz * (sampleBits + (model.OneSampleATransaction ? headBits : 0));
        var fifo = model.FifoSamples / rateHz;
        var drains = DrainsAFifo / fifo;
        var transactions = drains + (model.OneSampleATransaction ? rateHz : drains);
        var statusBits = headBits + (model.StatusBytes * byteBits);
        var busy = (payload / busHz) + (drains * (statusBits + (model.OneSampleATransaction ? 0 : headBits)) / busHz) + (transactions * call);
        var calls = model.OneSampleATransaction ? model.FifoSamples : 2;
        var whole = ((model.FifoSamples * payload / rateHz) + statusBits) / busHz + (calls * call);
        var slack = fifo - whole;
        var verdict = payload / busHz > MostShare || busy > 1 || slack < LeastSlackSeconds ? BusVerdict.Refused
            : slack < TightSlackSeconds ? BusVerdict.Tight
            : BusVerdict.Fits;
        return new(payload, payload / busHz, busy, fifo, slack, verdict);
    }

    /// <summary>Gives in a sentence the numbers of a configuration that fits.</summary>
    public static string Words(ChipSettings settings)
    {
        var load = Of(settings);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{settings.Rate.Hz:0.###} Hz take {100 * load.BusyShare:0} % of {Bus(settings.Bus)} at {Speed(settings.SpeedHz)}; the chip's store lasts {1000 * load.FifoSeconds:0.0} ms, a drain may be {1000 * load.SlackSeconds:0.0} ms late{(load.Verdict == BusVerdict.Tight ? ": tight" : "")}");
    }

    /// <summary>Gives in a sentence why a configuration does not fit and what would; null where it fits.</summary>
    public static string? Trouble(ChipSettings settings)
    {
        var load = Of(settings);
        if (load.Verdict != BusVerdict.Refused)
        {
            return null;
        }

        var asked = string.Create(
            CultureInfo.InvariantCulture,
            $"{settings.Model.Name} at {settings.Rate.Hz:0.###} Hz on {Bus(settings.Bus)} at {Speed(settings.SpeedHz)}: samples alone take {100 * load.PayloadShare:0} % of the bus, the chip's store lasts {1000 * load.FifoSeconds:0.0} ms and a drain may be {1000 * Math.Max(0, load.SlackSeconds):0.0} ms late");
        var ways = Ways(settings);
        return $"{asked}; it does not fit. {(ways.Count == 0 ? "Take a chip with a larger store" : $"What would fit: {string.Join(", or ", ways)}")}";
    }

    /// <summary>Gives the highest rate in Hz that fits a bus with a clock; null where none does.</summary>
    public static double? HighestRate(ChipModel model, ChipBus bus, double busHz)
    {
        var fitting = model.Rates.Where(rate => Of(model, bus, busHz, rate.Hz).Verdict != BusVerdict.Refused).ToList();
        return fitting.Count == 0 ? null : fitting[^1].Hz;
    }

    private static List<string> Ways(ChipSettings settings)
    {
        var (model, ways) = (settings.Model, new List<string>());
        if (HighestRate(model, settings.Bus, settings.SpeedHz) is { } lower)
        {
            ways.Add(string.Create(CultureInfo.InvariantCulture, $"rate_hz = {lower:0.###} on this bus"));
        }

        var fastest = settings.Bus == ChipBus.I2c ? model.MostI2cHz : model.MostSpiHz;
        if (settings.SpeedHz < fastest && Of(model, settings.Bus, fastest, settings.Rate.Hz).Verdict != BusVerdict.Refused)
        {
            ways.Add(string.Create(CultureInfo.InvariantCulture, $"{Bus(settings.Bus)} at {Speed(fastest)}"));
        }

        if (settings.Bus == ChipBus.I2c && Of(model, ChipBus.Spi, model.UsualSpiHz, settings.Rate.Hz).Verdict != BusVerdict.Refused)
        {
            ways.Add(string.Create(CultureInfo.InvariantCulture, $"{settings.Rate.Hz:0.###} Hz on SPI at {Speed(model.UsualSpiHz)}"));
        }

        return ways;
    }

    private static string Bus(ChipBus bus) => bus == ChipBus.Spi ? "SPI" : "I2C";

    private static string Speed(double hz) => hz >= 1e6
        ? string.Create(CultureInfo.InvariantCulture, $"{hz / 1e6:0.###} MHz")
        : string.Create(CultureInfo.InvariantCulture, $"{hz / 1e3:0.###} kHz");
}
