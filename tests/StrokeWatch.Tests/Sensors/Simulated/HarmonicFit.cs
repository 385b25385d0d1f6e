using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Tests.Sensors.Simulated;

/// <summary>A plain harmonic least-squares fit by QR, written apart from the simulator and from the measurement.</summary>
internal static class HarmonicFit
{
    /// <summary>Fits orders 1 to k of a frequency to samples, and gives cosine and sine parts, and the residual's r.m.s.</summary>
    public static (double[] Cos, double[] Sin, double Residual) Fit(ReadOnlySpan<double> samples, double hz, double rate, int orders)
    {
        var y = Vector<double>.Build.DenseOfArray(samples.ToArray());
        var basis = Matrix<double>.Build.Dense(y.Count, (2 * orders) + 1, (row, column) => column == 0
            ? 1
            : column % 2 == 1 ? Math.Cos(Angle(row, column)) : Math.Sin(Angle(row, column)));
        var fit = basis.QR(MathNet.Numerics.LinearAlgebra.Factorization.QRMethod.Thin).Solve(y);
        var residual = (y - (basis * fit)).L2Norm() / Math.Sqrt(y.Count);
        return ([.. Enumerable.Range(0, orders).Select(k => fit[(2 * k) + 1])], [.. Enumerable.Range(0, orders).Select(k => fit[(2 * k) + 2])], residual);

        double Angle(int row, int column) => 2 * Math.PI * hz * row / rate * ((column + 1) / 2);
    }

    /// <summary>Gives the peak-to-peak displacement in metres along the strongest direction in the x-z plane, and that direction in degrees, by omega arithmetic.</summary>
    public static (double PeakToPeak, double Degrees, double Fundamental) Stroke(double[] x, double[] z, double hz, double rate, int orders)
    {
        var (a, b) = (Fit(x, hz, rate, orders), Fit(z, hz, rate, orders));
        var xs = new double[4096];
        var zs = new double[4096];
        for (var n = 0; n < xs.Length; n++)
        {
            for (var k = 1; k <= orders; k++)
            {
                var scale = -1 / Math.Pow(2 * Math.PI * hz * k, 2);
                var (sin, cos) = Math.SinCos(2 * Math.PI * k * n / xs.Length);
                xs[n] += scale * ((a.Cos[k - 1] * cos) + (a.Sin[k - 1] * sin));
                zs[n] += scale * ((b.Cos[k - 1] * cos) + (b.Sin[k - 1] * sin));
            }
        }

        double best = 0, bestDegrees = 0;
        for (var degrees = -90.0; degrees < 90; degrees += 0.05)
        {
            var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
            var along = xs.Zip(zs, (p, q) => (p * cos) + (q * sin)).ToArray();
            if (along.Max() - along.Min() is var reach && reach > best)
            {
                (best, bestDegrees) = (reach, degrees);
            }
        }

        var (s, c) = Math.SinCos(bestDegrees * Math.PI / 180);
        var fundamental = 2 * double.Hypot((a.Cos[0] * c) + (b.Cos[0] * s), (a.Sin[0] * c) + (b.Sin[0] * s)) / Math.Pow(2 * Math.PI * hz, 2);
        return (best, bestDegrees, fundamental);
    }
}
