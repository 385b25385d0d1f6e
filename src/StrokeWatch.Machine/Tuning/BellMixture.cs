using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Machine.Tuning;

/// <summary>Student's t distributions of several variables, each with its share: where the fit looks for machines.</summary>
/// <remarks>Source: multivariate t (Kotz and Nadarajah, 2004, from memory); ν = 5 keeps tails heavier than those it stands for.</remarks>
internal sealed class BellMixture(int dimensions)
{
    private const double Freedom = 5;

    private readonly List<(double[] Centre, double[,] Root, double[,] InverseRoot, double LogScale)> bells = [];

    /// <summary>Gets how many there are.</summary>
    public int Count => bells.Count;

    /// <summary>Adds one about a centre; false where the covariance is none.</summary>
    public bool Add(double[] centre, Matrix<double> covariance)
    {
        for (var jitter = 1e-9; jitter < 1; jitter *= 100)
        {
            try
            {
                var factor = ((covariance + covariance.Transpose()) / 2 + (jitter * Matrix<double>.Build.DenseIdentity(dimensions))).Cholesky().Factor;
                var half = 0.5 * (Freedom + dimensions);
                var logScale = SpecialFunctions.GammaLn(half) - SpecialFunctions.GammaLn(0.5 * Freedom) - (0.5 * dimensions * Math.Log(Freedom * Math.PI)) - factor.Diagonal().Sum(Math.Log);
                bells.Add((centre, factor.ToArray(), factor.Inverse().ToArray(), logScale));
                return true;
            }
            catch (ArgumentException)
            {
                // Not positive definite to rounding: a little more on its diagonal makes it so.
            }
        }

        return false;
    }

    /// <summary>Draws from one of them.</summary>
    public double[] Draw(int bell, Random random)
    {
        var (centre, root, _, _) = bells[bell];
        var chi = 0.0;
        for (var i = 0; i < Freedom; i++)
        {
            var normal = Normal(random);
            chi += normal * normal;
        }

        var stretch = Math.Sqrt(Freedom / chi);
        var normals = new double[dimensions];
        for (var i = 0; i < dimensions; i++)
        {
            normals[i] = Normal(random);
        }

        double[] drawn = [.. centre];
        for (var i = 0; i < dimensions; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                drawn[i] += stretch * root[i, j] * normals[j];
            }
        }

        return drawn;
    }

    /// <summary>Gives the mean of their densities at a place.</summary>
    public double Density(double[] at)
    {
        var sum = 0.0;
        foreach (var (centre, _, inverse, logScale) in bells)
        {
            var square = 0.0;
            for (var i = 0; i < dimensions; i++)
            {
                var value = 0.0;
                for (var j = 0; j <= i; j++)
                {
                    value += inverse[i, j] * (at[j] - centre[j]);
                }

                square += value * value;
            }

            sum += Math.Exp(logScale - (0.5 * (Freedom + dimensions) * Math.Log(1 + (square / Freedom))));
        }

        return bells.Count == 0 ? 0 : sum / bells.Count;
    }

    /// <summary>Draws a standard normal number (Box and Muller).</summary>
    public static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
