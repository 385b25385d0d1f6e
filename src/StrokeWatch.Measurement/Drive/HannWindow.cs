namespace StrokeWatch.Measurement.Drive;

/// <summary>The Hann window, periodic ("DFT-even"): w(n) = ½ − ½ cos 2πn/N. Source: Heinzel, Rüdiger, Schilling, MPI/AEI 2002; Harris, Proc. IEEE 66 (1978).</summary>
public static class HannWindow
{
    /// <summary>Makes the N values of the window, N at least 1.</summary>
    public static double[] Periodic(int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        var window = new double[count];
        for (var n = 0; n < count; n++)
        {
            window[n] = 0.5 - 0.5 * Math.Cos(2 * Math.PI * n / count);
        }

        return window;
    }
}
