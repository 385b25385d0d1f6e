using System.Globalization;
using StrokeWatch.Machine.Tuning;
using Xunit;

namespace StrokeWatch.Tests.Machine.Tuning;

// Source of data and certified values: NIST Statistical Reference Datasets, nonlinear regression, MGH09 (higher difficulty) and ENSO (average difficulty).
public sealed class LeastSquaresTests
{
    private static readonly double[] EnsoY =
    [
        12.9, 11.3, 10.6, 11.2, 10.9, 7.5, 7.7, 11.7, 12.9, 14.3, 10.9, 13.7, 17.1, 14, 15.3, 8.5, 5.7, 5.5, 7.6, 8.6, 7.3, 7.6, 12.7, 11,
        12.7, 12.9, 13, 10.9, 10.4, 10.2, 8, 10.9, 13.6, 10.5, 9.2, 12.4, 12.7, 13.3, 10.1, 7.8, 4.8, 3, 2.5, 6.3, 9.7, 11.6, 8.6, 12.4,
        10.5, 13.3, 10.4, 8.1, 3.7, 10.7, 5.1, 10.4, 10.9, 11.7, 11.4, 13.7, 14.1, 14, 12.5, 6.3, 9.6, 11.7, 5, 10.8, 12.7, 10.8, 11.8, 12.6,
        15.7, 12.6, 14.8, 7.8, 7.1, 11.2, 8.1, 6.4, 5.2, 12, 10.2, 12.7, 10.2, 14.7, 12.2, 7.1, 5.7, 6.7, 3.9, 8.5, 8.3, 10.8, 16.7, 12.6,
        12.5, 12.5, 9.8, 7.2, 4.1, 10.6, 10.1, 10.1, 11.9, 13.6, 16.3, 17.6, 15.5, 16, 15.2, 11.2, 14.3, 14.5, 8.5, 12, 12.7, 11.3, 14.5, 15.1,
        10.4, 11.5, 13.4, 7.5, 0.6, 0.3, 5.5, 5, 4.6, 8.2, 9.9, 9.2, 12.5, 10.9, 9.9, 8.9, 7.6, 9.5, 8.4, 10.7, 13.6, 13.7, 13.7, 16.5,
        16.8, 17.1, 15.4, 9.5, 6.1, 10.1, 9.3, 5.3, 11.2, 16.6, 15.6, 12, 11.5, 8.6, 13.8, 8.7, 8.6, 8.6, 8.7, 12.8, 13.2, 14, 13.4, 14.8,
    ];

    [Theory]
    [InlineData(25, 39, 41.5, 39)]
    [InlineData(0.25, 0.39, 0.415, 0.39)]
    public void The_certified_digits_of_mgh09_are_met_from_both_starts(double b1, double b2, double b3, double b4)
    {
        double[] x = [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625];
        double[] y = [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246];
        var fit = LeastSquares.Fit(b => [.. x.Select((v, i) => (b[0] * ((v * v) + (v * b[1])) / ((v * v) + (v * b[2]) + b[3])) - y[i])], [b1, b2, b3, b4]);

        Assert.True(fit.Converged);
        Assert.Equal(7, fit.DegreesOfFreedom);
        Certified([1.9280693458E-01, 1.9128232873E-01, 1.2305650693E-01, 1.3606233068E-01], fit.Parameters, 1e-9);
        Certified([1.1435312227E-02, 1.9633220911E-01, 8.0842031232E-02, 9.0025542308E-02], fit.StandardDeviations(), 1e-8);
        Certified([3.0750560385E-04, 6.6279236551E-03], [fit.SumOfSquares, fit.ResidualDeviation], 1e-10);
    }

    [Theory]
    [InlineData("11 3 0.5 40 -0.7 -1.3 25 -0.3 1.4")]
    [InlineData("10 3 0.5 44 -1.5 0.5 26 -0.1 1.5")]
    public void The_certified_digits_of_enso_are_met_from_both_starts(string start)
    {
        static double Wave(double c, double s, double x, double period) => (c * Math.Cos(2 * Math.PI * x / period)) + (s * Math.Sin(2 * Math.PI * x / period));
        var fit = LeastSquares.Fit(
            b => [.. EnsoY.Select((y, i) => b[0] + Wave(b[1], b[2], i + 1, 12) + Wave(b[4], b[5], i + 1, b[3]) + Wave(b[7], b[8], i + 1, b[6]) - y)],
            [.. start.Split(' ').Select(number => double.Parse(number, CultureInfo.InvariantCulture))]);

        Assert.True(fit.Converged);
        Assert.Equal(159, fit.DegreesOfFreedom);
        Certified(
            [1.0510749193E+01, 3.0762128085E+00, 5.3280138227E-01, 4.4311088700E+01, -1.6231428586E+00, 5.2554493756E-01, 2.6887614440E+01, 2.1232288488E-01, 1.4966870418E+00],
            fit.Parameters,
            1e-9);
        Certified(
            [1.7488832467E-01, 2.4310052139E-01, 2.4354686618E-01, 9.4408025976E-01, 2.8078369611E-01, 4.8073701119E-01, 4.1612939130E-01, 5.1460022911E-01, 2.5434468893E-01],
            fit.StandardDeviations(),
            1e-8);
        Certified([7.8853978668E+02, 2.2269642403E+00], [fit.SumOfSquares, fit.ResidualDeviation], 1e-10);
    }

    [Fact]
    public void A_start_without_finite_residuals_finds_nothing_and_says_so() =>
        Assert.False(LeastSquares.Fit(_ => [double.NaN, double.NaN], [1.0]).Converged);

    private static void Certified(double[] expected, double[] found, double tolerance)
    {
        for (var i = 0; i < expected.Length; i++)
        {
            Assert.True(Math.Abs(found[i] - expected[i]) <= tolerance * Math.Abs(expected[i]), $"{i}: {found[i]:R} for {expected[i]:R}");
        }
    }
}
