using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Measurement.Drive;

/// <summary>
/// Least-squares fits of one sine and a constant, with the frequency known (three parameters) or free (four parameters).
/// Source: IEEE Std 1057, sine fitting; solved by QR on time scaled to -1…1, since normal equations lose digits on long records.
/// </summary>
public static class SineFit
{
    private const int MostIterations = 30;

    /// <summary>Fits A cos + B sin + C at a known frequency in cycles a sample; at least 4 samples.</summary>
    public static SineFitResult Known(ReadOnlySpan<double> samples, double cyclesPerSample)
    {
        var x = Solve(samples, cyclesPerSample, withFrequency: false, 0, 0, out var ssr);
        return new(x[0], x[1], x[2], cyclesPerSample, ssr, samples.Length, 0);
    }

    /// <summary>Fits A cos + B sin + C and the frequency, from a start within about half a bin (1/N) of it; at least 5 samples.</summary>
    /// <returns>The fit; <see cref="SineFitResult.Iterations"/> tells how many steps it took.</returns>
    public static SineFitResult Free(ReadOnlySpan<double> samples, double startCyclesPerSample)
    {
        var frequency = startCyclesPerSample;
        var x = Solve(samples, frequency, withFrequency: false, 0, 0, out _);
        for (var i = 1; ; i++)
        {
            x = Solve(samples, frequency, withFrequency: true, x[0], x[1], out _);
            frequency += x[3];
            if (Math.Abs(x[3]) * samples.Length < 1e-10 || i == MostIterations)
            {
                x = Solve(samples, frequency, withFrequency: false, 0, 0, out var ssr);
                return new(x[0], x[1], x[2], frequency, ssr, samples.Length, i);
            }
        }
    }

    private static double[] Solve(ReadOnlySpan<double> samples, double frequency, bool withFrequency, double a, double b, out double ssr)
    {
        var count = samples.Length;
        var columns = withFrequency ? 4 : 3;
        ArgumentOutOfRangeException.ThrowIfLessThan(count, columns + 1, nameof(samples));
        var design = Matrix<double>.Build.Dense(count, columns);
        var values = Vector<double>.Build.Dense(count);
        for (var n = 0; n < count; n++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * frequency * n);
            design[n, 0] = cos;
            design[n, 1] = sin;
            design[n, 2] = 1;
            if (withFrequency)
            {
                design[n, 3] = (b * cos - a * sin) * n / count;
            }

            values[n] = samples[n];
        }

        var solution = design.QR(MathNet.Numerics.LinearAlgebra.Factorization.QRMethod.Thin).Solve(values);
        var residual = (values - design * solution).L2Norm();
        ssr = residual * residual;
        var x = solution.ToArray();
        if (withFrequency)
        {
            x[3] /= 2 * Math.PI * count;
        }

        return x;
    }
}
