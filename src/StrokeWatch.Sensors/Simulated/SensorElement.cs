using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The accelerometer after its filter: how it sits on the tray, gravity, offset, noise, steps and rails.</summary>
internal sealed class SensorElement
{
    /// <summary>The random stream of a single sensor.</summary>
    public const int Stream = 5;

    private readonly SimulatedAccelerometer sensor;
    private readonly SeededRandom random;
    private readonly double turnSin, turnCos, sideSin, sideCos, gravityX, gravityZ, step;
    private readonly double low, high;
    private readonly FaultPhysics? faults;
    private (double X, double Y, double Z, bool Clipped) last;
    private bool failing;
    private int until;

    public SensorElement(SimulatedAccelerometer sensor, ulong seed, int stream = Stream, FaultPhysics? faults = null, SensorElement? before = null)
    {
        this.faults = faults;
        this.sensor = sensor;
        random = before?.random ?? new SeededRandom(seed, stream);
        (turnSin, turnCos) = Math.SinCos(sensor.TurnedDegrees * Math.PI / 180);
        (sideSin, sideCos) = Math.SinCos(sensor.SidewaysDegrees * Math.PI / 180);
        var (deckSin, deckCos) = Math.SinCos(sensor.DeckDegrees * Math.PI / 180);

        // A sensor at rest feels the support's push: upwards. With the x axis pointing downhill that push has a share against x.
        (gravityX, gravityZ) = (-Gravity.Standard * deckSin, Gravity.Standard * deckCos);
        var range = sensor.RangeG * Gravity.Standard;
        step = sensor.Bits == 0 ? 0 : 2 * range / Math.Pow(2, sensor.Bits);
        (low, high) = (-range, range - step);
    }

    /// <summary>Gives what the sensor says of an acceleration along the tray's axes in m/s², and whether an axis stands at its rail.</summary>
    public (double X, double Y, double Z, bool Clipped) Read((double X, double Y, double Z) tray)
    {
        double x = tray.X + gravityX, y = tray.Y, z = tray.Z + gravityZ;
        (x, z) = ((x * turnCos) + (z * turnSin), (z * turnCos) - (x * turnSin));
        (x, y) = ((x * sideCos) + (y * sideSin), (y * sideCos) - (x * sideSin));
        var clipped = false;
        x = Convert(x, sensor.OffsetG.X, ref clipped);
        y = Convert(y, sensor.OffsetG.Y, ref clipped);
        z = Convert(z, sensor.OffsetG.Z, ref clipped);
        return faults is { Failure: not SensorFailure.None } ? Failed((x, y, z, clipped)) : (x, y, z, clipped);
    }

    private (double X, double Y, double Z, bool Clipped) Failed((double X, double Y, double Z, bool Clipped) read)
    {
        if (until-- <= 0)
        {
            until = (int)(sensor.RateHz * (0.5 + random.Uniform()));
            failing = random.Uniform() < faults!.FailureShare;
            last = faults.Failure == SensorFailure.Dead ? default : read;
        }

        return failing ? last : read;
    }

    /// <summary>Gives a line in the tray's x-z plane, in radians above x, as the sensor's x-z plane shows it, in degrees above −90 to 90.</summary>
    public double SeenAngleDegrees(double trayAngle)
    {
        var (z, x) = Math.SinCos(trayAngle);
        (x, z) = ((x * turnCos) + (z * turnSin), (z * turnCos) - (x * turnSin));
        var degrees = Math.Atan2(z, x * sideCos) * 180 / Math.PI;
        return degrees > 90 ? degrees - 180 : degrees <= -90 ? degrees + 180 : degrees;
    }

    private double Convert(double value, double offsetG, ref bool clipped)
    {
        value = (sensor.Gain * value) + ((offsetG * Gravity.Standard) + (sensor.NoiseG * Gravity.Standard * random.Normal()));
        if (step > 0)
        {
            value = Math.Round(value / step) * step;
        }

        if (value <= low || value >= high)
        {
            clipped = true;
            value = value <= low ? low : high;
        }

        return value;
    }
}
