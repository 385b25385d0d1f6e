using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Sensors.Chips;

namespace StrokeWatch.Commands;

/// <summary>The walk of <c>check</c> along a chip: bus, identity and settings, self-test, rate, noise, budget, in the order in which one must hold for the next to mean anything.</summary>
internal sealed class ChipWalk(FeederDescription feeder, IChipProbe probe, Action<string> well, Action<string> note, Action<string> trouble)
{
    /// <summary>Relative difference of the measured rate from the nominal one above which the chip's clock is worth a word: the chips' own tolerance is a few per cent.</summary>
    private const double RateTold = 0.05;

    /// <summary>How many times the data sheet's noise a sensor at rest may show: common practice, no source.</summary>
    private const double NoiseTold = 5;

    /// <summary>Walks; false where the daemon could not measure with it.</summary>
    /// <param name="chip">The chip.</param>
    /// <param name="place">Where it sits, in brackets with a blank before them; empty where it is the only one.</param>
    /// <param name="judgeRange">Whether it sits on the tray, so that the feeder's limit says what range it needs.</param>
    public bool Run(ChipSettings chip, string place, bool judgeRange)
    {
        var name = $"{chip.Model.Name} on {chip.Name}{place}";
        var bus = Bus(chip);
        var found = probe.Look(chip);
        if (found.Trouble is { } wrong)
        {
            trouble(wrong.StartsWith(chip.Model.Name, StringComparison.Ordinal) ? wrong : $"{name}: {wrong}");
        }

        if (found.Start is { } start)
        {
            well($"{name}: identity and settings hold{(found.Temperature is { } degrees ? string.Create(CultureInfo.InvariantCulture, $", {degrees:0} °C") : "")}");
            (start.Verdict == SelfTestVerdict.Passed ? well : note)($"{name}: {start.Words}");
            (start.GravityPlausible ? well : note)(string.Create(CultureInfo.InvariantCulture, $"{name}: gravity reads {start.GravityG:0.00} g"));
        }

        foreach (var told in found.Told)
        {
            note(told);
        }

        if (found.Trouble is null)
        {
            Rate(name, chip, found);
            Noise(name, chip, found);
        }

        (BusBudget.Of(chip).Verdict == BusVerdict.Fits ? well : note)($"{name}: {BusBudget.Words(chip)}");
        if (judgeRange)
        {
            var advice = RangeAdvice.For(feeder);
            (advice.Judge(chip.Range.FullScaleG) == RangeVerdict.Suits ? well : note)($"{name}: {advice.Words(chip.Range.FullScaleG)}");
        }

        return bus && found.Trouble is null;
    }

    private bool Bus(ChipSettings chip)
    {
        if (chip.Bus == ChipBus.Spi)
        {
            return true;
        }

        switch (probe.I2cHz(chip))
        {
            case null:
                note(string.Create(CultureInfo.InvariantCulture, $"bus {chip.Device}: its speed cannot be read here; {chip.SpeedHz / 1000} kHz are taken for granted"));
                return true;
            case { } hz when hz < chip.SpeedHz:
                trouble(string.Create(
                    CultureInfo.InvariantCulture,
                    $"bus {chip.Device}: runs at {hz / 1000} kHz, speed_hz says {chip.SpeedHz / 1000} kHz; write dtparam=i2c_arm_baudrate={chip.SpeedHz} into the board's config.txt and restart, or correct speed_hz"));
                return false;
            case { } hz:
                well(string.Create(CultureInfo.InvariantCulture, $"bus {chip.Device}: {hz / 1000} kHz"));
                return true;
        }
    }

    private void Rate(string name, ChipSettings chip, ChipFindings found)
    {
        if (found.RateHz is not { } rate)
        {
            note($"{name}: the rate could not be measured; check again");
            return;
        }

        var off = (rate / chip.Rate.Hz) - 1;
        var far = Math.Abs(off) > RateTold + found.RateError;
        (far ? note : well)(string.Create(
            CultureInfo.InvariantCulture,
            $"{name}: {rate:0} Hz by this computer's clock over {found.Seconds:0.0} s, within {100 * found.RateError:0.0} %; nominal {chip.Rate.Hz:0.###} Hz{(far ? ": more than its clock should be off; check supply and settings" : "")}"));
        if (found.Gaps > 0)
        {
            note(string.Create(CultureInfo.InvariantCulture, $"{name}: {found.Gaps} gaps in that time: the board is too busy for this rate; take a lower one, or what else runs away"));
        }
    }

    private void Noise(string name, ChipSettings chip, ChipFindings found)
    {
        var floor = chip.Model.NoiseDensity * 1e-6 * Math.Sqrt(chip.Model.BandwidthShare * chip.Rate.Hz);
        var most = found.SpreadG.Max();
        var loud = most > NoiseTold * floor;
        (loud ? note : well)(string.Create(
            CultureInfo.InvariantCulture,
            $"{name}: x, y, z scatter by {1000 * found.SpreadG[0]:0.0}, {1000 * found.SpreadG[1]:0.0}, {1000 * found.SpreadG[2]:0.0} mg, the data sheet's noise is {1000 * floor:0.0} mg{(loud ? ": the tray moves, or the sensor is loose; for its noise check with the feeder stopped" : "")}"));
    }
}
