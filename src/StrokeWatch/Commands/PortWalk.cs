using System.Globalization;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Live;

namespace StrokeWatch.Commands;

/// <summary>The walk of <c>check</c> along a serial port: bytes, protocol, errors, rate, clock, noise, range, gravity, supply, in the order in which one must hold for the next to mean anything; with what is amiss, one thing to do.</summary>
internal sealed class PortWalk(FeederDescription feeder, Action<string> well, Action<string> note, Action<string> trouble)
{
    /// <summary>Share of frames or lines turned down from which the wire is worth a word, and from which measuring is none (common practice, no source).</summary>
    private const double ErrorsTold = 1e-4, ErrorsBad = 0.02;

    /// <summary>Relative difference of the rate from which it is worth a word: a stroke is off by twice as much.</summary>
    private const double RateTold = 0.005;

    /// <summary>The clock's error in ppm from which it is worth a word: a crystal has less than 100, an RC oscillator thousands (common practice, no source).</summary>
    private const double ClockTold = 1000;

    /// <summary>Gravity from this to that share of 1 g passes for a sensor of a stated range with its usual zero error (common practice, no source).</summary>
    private const double LeastGravity = 0.9, MostGravity = 1.1;

    /// <summary>Spread in g above which something moves.</summary>
    private const double Moves = 0.2;

    /// <summary>Walks; false where the daemon could not measure with it.</summary>
    /// <param name="device">The device.</param>
    /// <param name="place">Where it sits, in brackets with a blank before them.</param>
    /// <param name="found">What was heard.</param>
    public bool Run(SensorPort device, string place, PortFindings found)
    {
        var name = $"{device.Port.Path}{place}";
        if (found.Samples == 0)
        {
            trouble($"{name}: {NoSamples(device, found)}");
            return false;
        }

        well($"{name}: {(device.Sensor.Protocol == LiveSensors.Frames ? "frames" : "lines")} come{(found.Sensor is { Firmware.Length: > 0 } sensor ? $" from \"{sensor.Firmware}\"" : "")}, {Counted.Of(found.Samples, "sample")} in {Text(found.Seconds, "0.0")} s");
        var usable = Errors(name, device, found);
        foreach (var words in found.Told)
        {
            note(words);
        }

        Rate(name, found);
        Clock(name, found);
        Noise(name, found);
        Range(name, device, found);
        Gravity(name, device, found);
        Supply(name, found);
        return usable;
    }

    private static string NoSamples(SensorPort device, PortFindings found)
    {
        var frames = device.Sensor.Protocol == LiveSensors.Frames;
        return found.Bytes == 0 ? "open, but nothing comes; check the sensor's supply, its baud rate and its firmware"
            : PortGuess.LooksLikeFrames(found.First) && !frames ? "frames come, the configuration says lines; write protocol = \"frames\""
            : PortGuess.LooksLikeText(found.First) && frames ? "text lines come, the configuration says frames; write protocol = \"lines\" with its unit"
            : found.Sensor is not null && found.Told.Count > 0 ? found.Told[^1]
            : found.Rejected.Count > 0 && !frames && PortGuess.LooksLikeText(found.First) ? $"text comes, but no line that is {device.Sensor.Lines.Axes.Count} axes{(device.Sensor.Lines.Supply ? " and a voltage" : "")}, such as \"{PortGuess.Line(found.First)}\"; correct `axes`, `time` and `supply`"
            : $"{found.Bytes} bytes came, and nothing of the protocol {device.Sensor.Protocol} is among them; baud rates that do not agree look like this: check `baud` ({device.Port.BaudRate} now), then `protocol`";
    }

    private bool Errors(string name, SensorPort device, PortFindings found)
    {
        // What was joined in the middle, and what the configuration itself turns down, is no error of the wire.
        var wrong = found.Rejected.Where(pair => pair.Key is not ("joining" or "axes")).ToList();
        var (count, frames) = (wrong.Sum(pair => pair.Value), device.Sensor.Protocol == LiveSensors.Frames);
        var share = count / (double)Math.Max(1, count + (frames ? found.Samples / 32.0 : found.Samples));
        var words = string.Join(", ", wrong.Select(pair => $"{pair.Value} {pair.Key}"));
        if (found.Gaps == 0 && share < ErrorsTold)
        {
            well($"{name}: no gap, {(count == 0 ? "nothing" : words)} turned down");
            return true;
        }

        var sentence = $"{name}: {Counted.Of(found.Gaps, "gap")}, turned down: {(count == 0 ? "nothing" : words)}; "
            + (count == 0 ? "the device loses samples before it sends them: raise `baud`, or lower its rate" : "check the cable's length, shield and ground, and that its way keeps clear of the controller and the coil");
        (share > ErrorsBad ? trouble : note)(sentence);
        return share <= ErrorsBad;
    }

    private void Rate(string name, PortFindings found)
    {
        if (found.Rate is not { } rate || found.Sensor?.RateHz is not { } stated)
        {
            note($"{name}: its rate {(found.Rate is { } alone ? $"is about {Text(alone.Hz, "0")} Hz by this computer's clock; it is not stated, and is measured over ten seconds; say `rate_hz` where you know it" : "could not be measured; check again")}");
            return;
        }

        var off = rate.Hz / stated - 1;
        var far = Math.Abs(off) > Math.Max(RateTold, 2 * rate.Error);
        (far ? note : well)($"{name}: {Text(rate.Hz, "0")} Hz by this computer's clock, within {Text(100 * rate.Error, "0.0")} %; stated {Text(stated, "0.###")} Hz{(far ? $": {Text(100 * off, "+0.0;-0.0")} % off, and a stroke would be off by twice that on a free drive; correct the rate that the firmware states" : "")}");
    }

    private void Clock(string name, PortFindings found)
    {
        if (found.ClockError is not { } error)
        {
            note($"{name}: {(feeder.Drive.Free ? "the drive is not locked to the mains, so that its clock cannot be held against it" : "the feeder does not run steadily, so that its clock cannot be held against the mains")}; for the clock, stroke and direction check once more with the feeder running");
            return;
        }

        var far = Math.Abs(error) * 1e6 > ClockTold;
        well($"{name}: its clock against the mains: {Text(error * 1e6, "+0;-0")} ppm{(far ? " (no crystal; corrected, as the drive is locked to the mains)" : "")}{(found.Stroke is { } stroke ? $"; the stroke is now {Length.FromMetres(stroke)}" : "")}");
    }

    private void Noise(string name, PortFindings found)
    {
        var spread = string.Join(", ", found.Channels.Select(channel => Text(1000 * channel.Spread, "0.0")));
        var dead = found.Channels.Any(channel => channel.Spread == 0);
        var moving = found.Channels.Any(channel => channel.Spread > Moves);
        (dead ? note : well)($"{name}: scatter {spread} mg{(dead ? ": an axis says the same number again and again; check its wiring and firmware" : moving ? "; the tray moves: for the noise check with the feeder stopped" : " with the tray at rest")}");
    }

    private void Range(string name, SensorPort device, PortFindings found)
    {
        var peak = found.Channels.Max(channel => channel.Peak);
        if (found.Clipped > 0)
        {
            note($"{name}: {Counted.Of(found.Clipped, "sample")} at the end of the range ({Text(peak, "0.0")} g); take a sensor or setting of a wider range");
        }

        if (found.FullScaleG is not { } full)
        {
            note($"{name}: its full scale is not known, largest {Text(peak, "0.0")} g; state it with `full_scale_g` (a known rail tells a clipped stroke)");
            return;
        }

        if (ChipPart.OnTray(device))
        {
            var advice = RangeAdvice.For(feeder);
            (advice.Judge(full) == RangeVerdict.Suits ? well : note)($"{name}: largest {Text(peak, "0.0")} g of {advice.Words(full)}");
        }
    }

    private void Gravity(string name, SensorPort device, PortFindings found)
    {
        var axes = device.Sensor.Axes;
        if (axes.Count < 3)
        {
            note($"{name}: {axes.Count} of three axes come; gravity and direction cannot be checked");
            return;
        }

        double[] mean = [.. found.Channels.Select(channel => channel.Mean)];
        var size = Math.Sqrt(mean.Sum(value => value * value));
        if (size is < LeastGravity or > MostGravity)
        {
            note($"{name}: gravity reads {Text(size, "0.00")} g; {(size < 0.1 ? "the sensor passes no constant part (a piezo does not), or it sends none: tilt cannot be told" : "its scale is wrong: correct `unit` and `counts_per_g`, or the firmware's scale, or calibrate")}");
            return;
        }

        var largest = Array.FindIndex(mean, value => Math.Abs(value) == mean.Max(Math.Abs));
        var z = mean[axes.ToList().IndexOf(Axis.Z)];
        var tilt = Math.Acos(Math.Clamp(z / size, -1, 1)) * 180 / Math.PI;
        var words = $"{name}: gravity reads {Text(size, "0.00")} g, its z axis {Text(tilt, "0")}° from the vertical";
        (axes[largest] == Axis.Z && z > 0 ? (Action<string>)well : note)(axes[largest] != Axis.Z
            ? $"{words}, and {axes[largest].ToString().ToLowerInvariant()} is the axis that stands upright; turn the sensor, or correct the order of `axes`"
            : z < 0 ? $"{words}: it hangs upside down, or z points down; a stroke is the same, angles are not: turn it, or say so with `line_angle_deg`" : words);
    }

    private void Supply(string name, PortFindings found)
    {
        if (found.Sensor?.SupplyFullScale is null)
        {
            well($"{name}: it takes no supply voltage; hardware-notes/supply-voltage.md tells what that is good for");
        }
        else if (found.SupplyVolts is { } volts)
        {
            var share = volts / feeder.Supply?.FullVolts;
            (share is < 0.5 or > 1.5 ? note : well)($"{name}: supply {Text(volts, "0.0")} V true rms{(share is { } of ? $", {Text(100 * of, "0.0")} % of full voltage{(of is < 0.5 or > 1.5 ? ": check `scale_v` and full_voltage_v in [supply] of the feeder file" : "")}" : "; full_voltage_v in [supply] of the feeder file would bring the stroke to full voltage")}");
        }
        else
        {
            note($"{name}: its supply channel could not be read; check the transducer's range and `scale_v` (licensed persons only at the mains)");
        }
    }

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
