using System.Numerics;
using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>Orders before and after as complex amplitudes: what is a turn, and what is left of what is not.</summary>
public sealed class OnsetTurnTests
{
    private const double CyclesPerSample = 0.06, Floor = -9;
    private static readonly Complex[] Before = [new(0.1, 0.02), new(-0.03, 0.05), new(0.01, -0.02), new(0.004, 0.003)];

    /// <summary>Orders that all grow by one factor and turn by so many times one angle leave nothing but what the grid of angles, 5 mrad, leaves.</summary>
    [Theory]
    [InlineData(0.12, 1)]
    [InlineData(-0.2, 1.1)]
    [InlineData(0.005, 0.9)]
    public void A_turn_leaves_nothing(double angle, double grown)
    {
        var numbers = Numbers(order => Before[order - 2] * grown * Complex.FromPolarCoordinates(1, order * angle), grown);
        Assert.Equal(angle, numbers[0], 0.0026);
        Assert.True(numbers[1] < -1.5 || Math.Abs(angle) < 0.01, $"what is left over the change: 10^{numbers[1]:0.0}");
        for (var i = 0; i < 3; i++)
        {
            Assert.Equal(angle, numbers[(2 * PerScale) + (3 * i) + 1], 1e-9);
            Assert.Equal(0, numbers[(2 * PerScale) + (3 * i) + 2], 2e-3);
        }
    }

    /// <summary>What came beside the turn is found again, about the turned orders: half as much again of the second order, in step with it.</summary>
    [Fact]
    public void What_came_beside_the_turn_is_left()
    {
        var numbers = Numbers(order => Before[order - 2] * Complex.FromPolarCoordinates(1, order * 0.1) * (order == 4 ? 1.5 : 1), 1);
        Assert.Equal(0.1, numbers[0], 0.01);
        Assert.Equal(0.5, numbers[3 + 6], 0.05);
        Assert.Equal(0, numbers[3 + 7], 0.05);
        Assert.Equal(Math.Log(1.5), numbers[(2 * PerScale) + 6], 2e-3);
    }

    /// <summary>Without a factor taken off, a machine whose orders have all grown shows it.</summary>
    [Fact]
    public void Growth_is_left_where_it_is_not_taken_off()
    {
        var numbers = Numbers(order => Before[order - 2] * 1.2, 1.2);
        Assert.True(numbers[1] < -3 && numbers[PerScale + 1] > -0.1, $"{numbers[1]} and {numbers[PerScale + 1]}");
    }

    /// <summary>Orders that the rate does not reach say nothing.</summary>
    [Fact]
    public void Orders_beyond_the_band_say_nothing()
    {
        var (wild, tame) = (new double[OnsetTurn.Count], new double[OnsetTurn.Count]);
        foreach (var (into, other) in new[] { (wild, 5.0), (tame, -7.0) })
        {
            var (ratios, changes) = Given(order => Before[order - 2] * 1.3);
            (ratios[6], changes[6], ratios[9], changes[9]) = (other, other, other, other);
            new OnsetTurn().Fill(ratios, changes, 0, Floor, 0.13, into);
        }

        Assert.Equal(tame, wild);
    }

    private static int PerScale => (OnsetTurn.Count - 10) / 2;

    private static double[] Numbers(Func<int, Complex> after, double grown)
    {
        var (ratios, changes) = Given(after);
        var numbers = new double[OnsetTurn.Count];
        new OnsetTurn().Fill(ratios, changes, Math.Log10(grown), Floor, CyclesPerSample, numbers);
        return numbers;
    }

    private static (double[] Ratios, double[] Changes) Given(Func<int, Complex> after)
    {
        var (ratios, changes) = (new double[12], new double[12]);
        for (var i = 0; i < 4; i++)
        {
            var change = after(i + 2) - Before[i];
            var (power, stood) = (Math.Pow(change.Magnitude, 2), Math.Pow(Before[i].Magnitude, 2));
            var angle = (change / Before[i]).Phase;
            (ratios[3 * i], ratios[(3 * i) + 1], ratios[(3 * i) + 2]) = (Math.Log10(power / stood), Math.Cos(angle), Math.Sin(angle));
            changes[3 * i] = Math.Log10(power);
        }

        return (ratios, changes);
    }
}
