namespace StrokeWatch.Sensors.Simulated;

/// <summary>One axis of the accelerometer's own low-pass: none, one pole, or two (Butterworth), by the bilinear transform with its corner in place.</summary>
internal sealed class SensorFilter
{
    private readonly double b0, b1, b2, a1, a2;
    private double s1, s2;

    public SensorFilter(int poles, double cornerHz, double stepSeconds)
    {
        var w = Math.Tan(Math.PI * cornerHz * stepSeconds);
        if (poles == 0)
        {
            b0 = 1;
        }
        else if (poles == 1)
        {
            b0 = b1 = w / (1 + w);
            a1 = (w - 1) / (1 + w);
        }
        else
        {
            var scale = 1 + (Math.Sqrt(2) * w) + (w * w);
            b0 = b2 = w * w / scale;
            b1 = 2 * b0;
            a1 = 2 * ((w * w) - 1) / scale;
            a2 = (1 - (Math.Sqrt(2) * w) + (w * w)) / scale;
        }
    }

    public double Next(double value)
    {
        var result = (b0 * value) + s1;
        s1 = (b1 * value) - (a1 * result) + s2;
        s2 = (b2 * value) - (a2 * result);
        return result;
    }
}
