namespace StrokeWatch.Measurement.Drive;

/// <summary>Finds the strongest line of a window near a nominal frequency, over all axes together, by a Hann-windowed Fourier sum at quarter-bin steps.</summary>
internal sealed class LineScan
{
    private const double StepBins = 0.25;
    private double[] window = [];

    /// <summary>Gives the frequency in cycles a sample of the largest acceleration line between two frequencies.</summary>
    /// <param name="axes">One array an axis.</param>
    /// <param name="start">First sample used.</param>
    /// <param name="count">Number of samples used.</param>
    /// <param name="low">Lower end in cycles a sample.</param>
    /// <param name="high">Upper end in cycles a sample.</param>
    /// <param name="byVelocity">True to weigh lines as velocity (acceleration over frequency), for a wide search.</param>
    public double Find(double[][] axes, int start, int count, double low, double high, bool byVelocity = false)
    {
        Prepare(count);
        var step = StepBins / count;
        var steps = Math.Max(2, (int)Math.Ceiling((high - low) / step));
        step = (high - low) / steps;
        double before = 0, here = 0, best = -1, bestFrequency = 0.5 * (low + high);
        for (var i = -1; i <= steps + 1; i++)
        {
            var frequency = low + i * step;
            var weight = byVelocity ? 1 / (frequency * frequency) : 1;
            var next = frequency > 0 && frequency < 0.5 ? weight * Power(axes, start, count, frequency) : 0;
            if (i >= 1 && here > best)
            {
                best = here;
                bestFrequency = low + (i - 1 + Peak(before, here, next)) * step;
            }

            (before, here) = (here, next);
        }

        // The parabola of a peak beyond the ends leans out of the range, and the caller's window would not hold its cycles.
        return Math.Clamp(bestFrequency, low, high);
    }

    private static double Peak(double before, double here, double next)
    {
        if (before <= 0 || next <= 0 || here <= 0)
        {
            return 0;
        }

        var (a, b, c) = (Math.Log(before), Math.Log(here), Math.Log(next));
        var curvature = a - 2 * b + c;
        return curvature < 0 ? Math.Clamp(0.5 * (a - c) / curvature, -1, 1) : 0;
    }

    private double Power(double[][] axes, int start, int count, double frequency)
    {
        var (stepSin, stepCos) = Math.SinCos(2 * Math.PI * frequency);
        var total = 0.0;
        foreach (var axis in axes)
        {
            // The mean is taken off first: gravity is ten times a stroke's leakage.
            var mean = 0.0;
            for (var n = 0; n < count; n++)
            {
                mean += axis[start + n];
            }

            mean /= count;
            double cos = 1, sin = 0, re = 0, im = 0;
            for (var n = 0; n < count; n++)
            {
                var value = (axis[start + n] - mean) * window[n];
                re += value * cos;
                im += value * sin;
                (cos, sin) = (cos * stepCos - sin * stepSin, sin * stepCos + cos * stepSin);
            }

            total += re * re + im * im;
        }

        return total;
    }

    private void Prepare(int count)
    {
        if (window.Length != count)
        {
            window = HannWindow.Periodic(count);
        }
    }
}
