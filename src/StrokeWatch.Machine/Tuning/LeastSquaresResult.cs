using MathNet.Numerics.LinearAlgebra;

namespace StrokeWatch.Machine.Tuning;

/// <summary>What a least-squares fit found.</summary>
/// <param name="Parameters">The parameters.</param>
/// <param name="SumOfSquares">The residual sum of squares.</param>
/// <param name="DegreesOfFreedom">Residuals less parameters.</param>
/// <param name="Jacobian">The residuals' derivatives at the parameters, a row each residual.</param>
/// <param name="Iterations">Steps tried.</param>
/// <param name="Converged">Whether no further step made a difference.</param>
public sealed record LeastSquaresResult(double[] Parameters, double SumOfSquares, int DegreesOfFreedom, double[,] Jacobian, int Iterations, bool Converged)
{
    /// <summary>Gets the residual standard deviation, √(RSS/ν).</summary>
    public double ResidualDeviation => Math.Sqrt(SumOfSquares / DegreesOfFreedom);

    /// <summary>Gives (JᵀJ)⁻¹ from the triangular factor of J: the parameters' covariance for residuals of standard deviation 1.</summary>
    public double[,] UnitCovariance()
    {
        var inverse = Matrix<double>.Build.DenseOfArray(Jacobian).QR(MathNet.Numerics.LinearAlgebra.Factorization.QRMethod.Thin).R.Inverse();
        return inverse.TransposeAndMultiply(inverse).ToArray();
    }

    /// <summary>Gives the parameters' standard deviations, with the residuals' own deviation.</summary>
    public double[] StandardDeviations()
    {
        var covariance = UnitCovariance();
        return [.. Enumerable.Range(0, Parameters.Length).Select(i => ResidualDeviation * Math.Sqrt(covariance[i, i]))];
    }
}
