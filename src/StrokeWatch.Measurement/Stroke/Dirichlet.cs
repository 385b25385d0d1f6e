namespace StrokeWatch.Measurement.Stroke;

/// <summary>Sums of cosines and sines over N samples counted from the middle of the window, in closed form.</summary>
internal static class Dirichlet
{
    /// <summary>Gives Σ cos 2πft over t = -(N-1)/2 … (N-1)/2, f in cycles a sample.</summary>
    public static double Cosines(double frequency, int count)
    {
        var half = Math.PI * frequency;
        var below = Math.Sin(half);
        return Math.Abs(below) < 1e-12
            ? count * (Math.Cos(half * (count - 1)) >= 0 ? 1 : -1)
            : Math.Sin(half * count) / below;
    }

    /// <summary>Gives Σ cos 2πmνt over the same t for every m from 0 on, ν in cycles a sample and below 1/m.</summary>
    public static void Cosines(double frequency, int count, Span<double> sums)
    {
        // Both sines by one rotation an order: what one order adds in rounding stays below 1e-15.
        var (stepSin, stepCos) = Math.SinCos(Math.PI * frequency);
        var (longStepSin, longStepCos) = Math.SinCos(Math.PI * frequency * count);
        var (sin, cos, longSin, longCos) = (stepSin, stepCos, longStepSin, longStepCos);
        sums[0] = count;
        for (var m = 1; m < sums.Length; m++)
        {
            sums[m] = Math.Abs(sin) < 1e-9 ? Cosines(m * frequency, count) : longSin / sin;
            (cos, sin) = (cos * stepCos - sin * stepSin, sin * stepCos + cos * stepSin);
            (longCos, longSin) = (longCos * longStepCos - longSin * longStepSin, longSin * longStepCos + longCos * longStepSin);
        }
    }

    /// <summary>Gives Σ t sin 2πft over the same t.</summary>
    public static double TimesSines(double frequency, int count)
    {
        var half = Math.PI * frequency;
        var (sin, cos) = Math.SinCos(half);
        if (Math.Abs(sin) < 1e-9)
        {
            return 0;
        }

        var (longSin, longCos) = Math.SinCos(half * count);
        return -(count * longCos * sin - longSin * cos) / (2 * sin * sin);
    }
}
