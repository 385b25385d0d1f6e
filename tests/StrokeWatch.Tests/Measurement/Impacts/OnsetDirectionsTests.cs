using System.Numerics;
using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>In what direction what has come to the orders moves the sensor.</summary>
public sealed class OnsetDirectionsTests
{
    private const double Floor = 1e-4;

    [Fact]
    public void What_acts_where_the_pull_acts_moves_the_sensor_as_the_pull_does_and_what_pushes_from_without_does_not()
    {
        var strike = Worked((k, axis) => Usual(k, axis) * (1 + (0.4 * k)));
        var push = Worked((k, axis) => Usual(k, axis) + (axis == 1 ? new Complex(0, 0.5) : 0.1));

        // What lies across over what noise puts there, and over what lies along.
        Assert.True(strike[0] < 0.3 && strike[3] < 0.3 && strike[1] < -2, string.Join(' ', strike));
        Assert.True(push[0] > 1 && push[3] > 1 && push[1] > -1, string.Join(' ', push));
    }

    [Fact]
    public void A_supply_that_was_turned_up_leaves_nothing_that_one_share_does_not_explain()
    {
        var numbers = Worked((k, axis) => 1.1 * Usual(k, axis));
        Assert.True(numbers[6] < 0.5 && numbers[7] < -1.5, string.Join(' ', numbers));
        Assert.True(Worked((k, axis) => Usual(k, axis) * (1 + (0.3 * (k % 2))))[6] > 1);
    }

    private static Complex Usual(int k, int axis) =>
        Complex.FromPolarCoordinates(3.0 / k, 0.3 * k) * (axis == 0 ? new(0.8, 0.1 * k) : new Complex(0.5, -0.2));

    private static double[] Worked(Func<int, int, Complex> now)
    {
        var (window, before, directions) = (new OnsetPicture(), new OnsetPicture(), new OnsetDirections());
        for (var n = 0; n < 10; n++)
        {
            Take(window, Usual);
            before.Blend(window, 20);
        }

        Take(window, (k, axis) => k == 1 ? Usual(k, axis) : now(k, axis));
        directions.Work(window, before, Floor);
        var numbers = new double[OnsetDirections.Count];
        directions.Fill(numbers);
        return numbers;
    }

    private static void Take(OnsetPicture picture, Func<int, int, Complex> orders)
    {
        var fit = new TwoAxes(orders);
        var line = new LineHarmonics(fit.Cosine(0), fit.Sine(0), new double[] { 1, 0 });
        picture.Take(fit, line, 1600, new(), 0);
    }

    private sealed class TwoAxes(Func<int, int, Complex> orders) : IWindowHarmonics
    {
        private readonly double[][] cosine = Part(orders, value => value.Real);
        private readonly double[][] sine = Part(orders, value => -value.Imaginary);

        public int Axes => 2;

        public int Orders => 8;

        public double Frequency => 0.05;

        public double MeasuredFrequency => 0.05;

        public int Count => 800;

        public double SquaredResiduals => 8;

        // So that an order's noise power, 2 σ² times the share, is the floor.
        public double ResidualDeviation => Math.Sqrt(Floor / 2 / CoefficientShare);

        public double CoefficientShare => 2.0 / 800;

        public ReadOnlySpan<double> Cosine(int axis) => cosine[axis];

        public ReadOnlySpan<double> Sine(int axis) => sine[axis];

        public (double Cosine, double Sine) Part(int axis, int part) => default;

        private static double[][] Part(Func<int, int, Complex> orders, Func<Complex, double> part) =>
            [.. Enumerable.Range(0, 2).Select(axis => Enumerable.Range(0, 9).Select(k => k == 0 ? 0 : part(orders(k, axis))).ToArray())];
    }
}
