using MathNet.Numerics.LinearAlgebra;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Orientation;

/// <summary>Adds up gravity and the fundamental's ellipse over windows, in memory that does not grow; nothing is allocated a window.</summary>
public sealed class OrientationTally
{
    /// <summary>The minor axis must stand so many of its own deviations clear of noise before the ellipse has a plane.</summary>
    private const double ClearMinor = 5;

    private readonly int[] places;
    private readonly double[] spread = new double[9];
    private readonly double[] projectors = new double[9];
    private readonly double[] means = new double[3];
    private double noise;
    private long windows;
    private long runs;

    /// <summary>Makes a tally for a sensor's axes.</summary>
    public OrientationTally(IReadOnlyList<Axis> axes) => places = [.. axes.Select(axis => (int)axis)];

    /// <summary>Begins anew.</summary>
    public void Clear()
    {
        Array.Clear(spread);
        Array.Clear(projectors);
        Array.Clear(means);
        (noise, windows, runs) = (0, 0, 0);
    }

    /// <summary>Takes the constants of a window that is not clipped, standing still or running.</summary>
    internal void Rest(IWindowHarmonics fit)
    {
        for (var a = 0; a < places.Length; a++)
        {
            means[places[a]] += fit.Cosine(a)[0];
        }

        windows++;
    }

    /// <summary>Takes the fundamental of a window that ran steadily.</summary>
    /// <param name="fit">The harmonics in m/s².</param>
    /// <param name="omega">The true drive frequency in rad/s.</param>
    /// <param name="found">The line of action that this window shows, one number an axis; empty where it was not looked for, because it is given.</param>
    internal void Run(IWindowHarmonics fit, double omega, ReadOnlySpan<double> found)
    {
        Rest(fit);
        Span<double> matrix = stackalloc double[9];
        Span<double> line = stackalloc double[3];
        var scale = 4 / (omega * omega * omega * omega);
        for (var a = 0; a < places.Length; a++)
        {
            for (var b = 0; b < places.Length; b++)
            {
                var place = 3 * places[a] + places[b];
                matrix[place] = scale * (fit.Cosine(a)[1] * fit.Cosine(b)[1] + fit.Sine(a)[1] * fit.Sine(b)[1]);
                spread[place] += matrix[place];
            }
        }

        if (found.IsEmpty)
        {
            LargestEigenvector.Find(matrix, line);
        }
        else
        {
            for (var a = 0; a < places.Length; a++)
            {
                line[places[a]] = found[a];
            }
        }

        for (var i = 0; i < 9; i++)
        {
            projectors[i] += line[i / 3] * line[i % 3];
        }

        var deviation = fit.ResidualDeviation;
        noise += scale * deviation * deviation * 2 / fit.Count;
        runs++;
    }

    /// <summary>Sums up.</summary>
    public OrientationReading Read()
    {
        var reading = new OrientationReading { Mean = places.Length == 3 && windows > 0 ? new(means[0] / windows, means[1] / windows, means[2] / windows) : null };
        if (places.Length < 2 || runs == 0)
        {
            return reading;
        }

        // The ellipse's spread matrix c·cᵀ + s·sᵀ has the squared semi-axes as eigenvalues; noise adds twice its variance to each.
        var variance = noise / runs;
        var (values, vectors) = Eigen(spread, runs);
        var (major, minor) = (Math.Sqrt(Math.Max(0, values[2] - 2 * variance)), Math.Sqrt(Math.Max(0, values[1] - 2 * variance)));
        var line = vectors[2];
        var sense = Math.Abs(line.Z) > 1e-9 ? Math.Sign(line.Z) : line.X < 0 ? -1 : 1;
        var clear = places.Length == 3 && minor * minor > ClearMinor * 2 * variance / Math.Sqrt(runs) && minor > 0;
        return reading with
        {
            Line = new(sense * line.X, sense * line.Y, sense * line.Z),
            LineDeviation = Deviation(major, minor, variance),
            MajorMetres = major,
            MinorMetres = minor,
            Normal = clear ? vectors[0] : null,
        };
    }

    private double Deviation(double major, double minor, double variance)
    {
        // First-order perturbation of the major eigenvector, worst in the ellipse's own plane: σ·√(a² + b²)/(a² − b²).
        var (large, small) = (major * major, minor * minor);
        var byNoise = large > small ? Math.Sqrt(variance * (large + small)) / (large - small) : 0.5 * Math.PI;
        var (values, _) = Eigen(projectors, runs);
        var byScatter = Math.Sqrt(Math.Max(0, 1 - values[2]) / Math.Max(1, places.Length - 1));
        return Math.Min(0.5 * Math.PI, Math.Max(byNoise, byScatter) / Math.Sqrt(runs));
    }

    private static (double[] Values, Triple[] Vectors) Eigen(double[] sums, long count)
    {
        var evd = Matrix<double>.Build.Dense(3, 3, (row, column) => sums[3 * row + column] / count).Evd(Symmetricity.Symmetric);
        var order = Enumerable.Range(0, 3).OrderBy(i => evd.EigenValues[i].Real).ToArray();
        return ([.. order.Select(i => evd.EigenValues[i].Real)],
            [.. order.Select(i => new Triple(evd.EigenVectors[0, i], evd.EigenVectors[1, i], evd.EigenVectors[2, i]))]);
    }
}
