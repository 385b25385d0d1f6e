using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Machine.Conveying;

/// <summary>
/// What a shaken trough does to loose material: throw number, flight and speed. Strokes are peak to peak in metres, frequencies in Hz, angles in radians; the deck is level.
/// </summary>
/// <remarks>
/// Source: Γ = 4π²f²r sin β/g ("Wurfkennziffer", Dubbel 2007 as cited by Wikipedia de); flight ratio and ideal speed derived from free flight with a plastic landing
/// (conveying-speed model of VDI 2333, from memory), exact as long as one flight lasts no longer than one period.
/// </remarks>
public static class Throw
{
    /// <summary>The throw number at which one flight lasts just one period, √(1+π²); above it the one-hop model does not hold.</summary>
    public static readonly double OnePeriod = Math.Sqrt(1 + (Math.PI * Math.PI));

    /// <summary>Gives the machine number K = (2πf)² r/g with r half the stroke.</summary>
    public static double MachineNumber(double stroke, double frequencyHz) => Math.Pow(2 * Math.PI * frequencyHz, 2) * 0.5 * stroke / Gravity.Standard;

    /// <summary>Gives the throw number Γ = K sin β.</summary>
    public static double Number(double stroke, double frequencyHz, double angle) => MachineNumber(stroke, frequencyHz) * Math.Sin(angle);

    /// <summary>Gives the throw number of a flight that lasts a share of the period, 0 to 1: √(1 + ((cos 2πn + 2π²n² − 1)/(2πn − sin 2πn))²).</summary>
    public static double NumberFor(double flightRatio)
    {
        var turn = 2 * Math.PI * flightRatio;
        return double.Hypot(1, (Math.Cos(turn) + (0.5 * turn * turn) - 1) / (turn - Math.Sin(turn)));
    }

    /// <summary>Gives the share of the period that a flight lasts; 0 where nothing takes off, null above <see cref="OnePeriod"/>, where the one-hop model ends.</summary>
    public static double? FlightRatio(double number)
    {
        if (!(number > 1))
        {
            return 0;
        }

        if (number > OnePeriod * (1 + 1e-9))
        {
            return null;
        }

        double low = 1e-4, high = 1;
        for (var i = 0; i < 100; i++)
        {
            var middle = 0.5 * (low + high);
            (low, high) = NumberFor(middle) < number ? (middle, high) : (low, middle);
        }

        return 0.5 * (low + high);
    }

    /// <summary>Gives the phase in radians at which material takes off, asin(1/Γ); null where it never does.</summary>
    public static double? TakeOff(double number) => number > 1 ? Math.Asin(1 / number) : null;

    /// <summary>Gives the ideal speed in m/s, g n²/(2f tan β); null outside the one-hop model: where nothing takes off, or a flight outlasts the period.</summary>
    public static double? Speed(double stroke, double frequencyHz, double angle) =>
        FlightRatio(Number(stroke, frequencyHz, angle)) is { } flight and > 0 ? Gravity.Standard * flight * flight / (2 * frequencyHz * Math.Tan(angle)) : null;

    /// <summary>Gives the speed in m/s that one-hop flight never exceeds: g/(2f tan β).</summary>
    public static double Ceiling(double frequencyHz, double angle) => Gravity.Standard / (2 * frequencyHz * Math.Tan(angle));

    /// <summary>Gives the machine numbers from which material slides forward and back, for a coefficient of friction: μ/(cos β ± μ sin β).</summary>
    public static (double Forward, double Back) SlideOnset(double friction, double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        return (friction / (cos + (friction * sin)), friction / (cos - (friction * sin)));
    }
}
