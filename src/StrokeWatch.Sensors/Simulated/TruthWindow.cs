using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>
/// Fits the periodic part of the true displacement over windows of whole cycles: harmonics of the drive's own phase beside a constant,
/// by least squares under a Hann weight, which keeps the slow swaying on the mounts out of it.
/// </summary>
internal sealed class TruthWindow
{
    private const int Orders = 16;
    private const int Slow = 1;
    private const double AboutRate = 8000;
    private const double AboutSeconds = 0.5;
    private readonly int stride;
    private readonly double cycles;
    private readonly List<(double Seconds, double Phase, double X, double Z)> points = [];
    private int until;
    private double first;

    public TruthWindow(double stepSeconds, double driveHz)
    {
        stride = Math.Max(1, (int)Math.Round(1 / (AboutRate * stepSeconds)));
        cycles = Math.Max(10, Math.Ceiling(AboutSeconds * driveHz));
    }

    /// <summary>Takes the motion of a step, and gives a reading when a window is full.</summary>
    public TruthReading? Add(double seconds, double phase, (double X, double Z) place)
    {
        if (until-- > 0)
        {
            return null;
        }

        until = stride - 1;
        if (points.Count > 0 && phase - first >= 2 * Math.PI * cycles)
        {
            var reading = Fit(seconds);
            Clear();
            Begin(seconds, phase, place);
            return reading;
        }

        Begin(seconds, phase, place);
        return null;
    }

    /// <summary>Forgets what it holds, so that the next window starts afresh.</summary>
    public void Clear() => points.Clear();

    private void Begin(double seconds, double phase, (double X, double Z) place)
    {
        if (points.Count == 0)
        {
            first = phase;
        }

        points.Add((seconds, phase, place.X, place.Z));
    }

    private TruthReading Fit(double end)
    {
        const int columns = Slow + (2 * Orders);
        var normal = Matrix<double>.Build.Dense(columns, columns);
        var right = Matrix<double>.Build.Dense(columns, 2);
        var storage = new double[columns, columns];
        var row = new double[columns];
        double begin = points[0].Seconds, length = end - begin;
        foreach (var (seconds, phase, x, z) in points)
        {
            var weight = (1 - Math.Cos(2 * Math.PI * (seconds - begin) / length)) / 2;
            row[0] = 1;
            var (s, c) = Math.SinCos(phase);
            double ck = 1, sk = 0;
            for (var k = 0; k < Orders; k++)
            {
                (ck, sk) = ((ck * c) - (sk * s), (sk * c) + (ck * s));
                row[Slow + (2 * k)] = ck;
                row[Slow + (2 * k) + 1] = sk;
            }

            for (var i = 0; i < columns; i++)
            {
                right[i, 0] += weight * row[i] * x;
                right[i, 1] += weight * row[i] * z;
                for (var j = 0; j <= i; j++)
                {
                    storage[i, j] += weight * row[i] * row[j];
                }
            }
        }

        for (var i = 0; i < columns; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                normal[i, j] = normal[j, i] = storage[i, j];
            }
        }

        var solution = normal.Cholesky().Solve(right);
        return Read(begin, length, solution.Column(0).ToArray().AsSpan(Slow), solution.Column(1).ToArray().AsSpan(Slow));
    }

    private static TruthReading Read(double begin, double length, ReadOnlySpan<double> x, ReadOnlySpan<double> z)
    {
        double xx = 0, zz = 0, xz = 0;
        for (var i = 0; i < x.Length; i++)
        {
            xx += x[i] * x[i];
            zz += z[i] * z[i];
            xz += x[i] * z[i];
        }

        var angle = Math.Atan2(2 * xz, xx - zz) / 2;
        var (sin, cos) = Math.SinCos(angle);
        const int phases = 720;
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (var n = 0; n < phases; n++)
        {
            double sum = 0;
            for (var k = 0; k < Orders; k++)
            {
                var (s, c) = Math.SinCos(2 * Math.PI * n * (k + 1) / phases);
                sum += (((x[2 * k] * cos) + (z[2 * k] * sin)) * c) + (((x[(2 * k) + 1] * cos) + (z[(2 * k) + 1] * sin)) * s);
            }

            low = Math.Min(low, sum);
            high = Math.Max(high, sum);
        }

        double along = (x[0] * cos) + (z[0] * sin), late = (x[1] * cos) + (z[1] * sin);
        var power = (x[0] * x[0]) + (x[1] * x[1]) + (z[0] * z[0]) + (z[1] * z[1]);
        var area = Math.Abs((x[0] * z[1]) - (x[1] * z[0]));
        var major = Math.Sqrt((power + Math.Sqrt(Math.Max(0, (power * power) - (4 * area * area)))) / 2);
        return new(begin, length, high - low, 2 * double.Hypot(along, late), angle, major > 0 ? area / (major * major) : 0, Math.Atan2(-late, along));
    }
}
