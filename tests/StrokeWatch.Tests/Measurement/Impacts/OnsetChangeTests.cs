using System.Numerics;
using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>Orders before and after as complex amplitudes along two axes: what was added is found behind what the fundamental's lag turned.</summary>
public sealed class OnsetChangeTests
{
    private const double Floor = 1e-9, Lag = -0.08;
    private const int PerOrder = 6, First = 5;
    private static readonly (double X, double Z) Line = (Math.Cos(0.4), Math.Sin(0.4));

    /// <summary>All orders turned by so many times the lag: nothing was added, though every order differs.</summary>
    [Fact]
    public void What_only_lags_has_nothing_added()
    {
        var numbers = Numbers(Orders(order => Before(order) * Turned(order), Before));
        Assert.Equal((Lag, Lag), (numbers[0], numbers[1]));
        var total = First + (PerOrder * ChangedOrders.Orders);
        Assert.InRange(numbers[total], 0, 1e-6);
        Assert.True(numbers[total + 1] < -3, $"left over what was seen: 10^{numbers[total + 1]:0.0}");
        for (var order = 1; order <= ChangedOrders.Orders; order++)
        {
            Assert.Equal((0, 0, 0, 0), (At(numbers, order, 1), At(numbers, order, 2), At(numbers, order, 4), At(numbers, order, 5)));
        }
    }

    /// <summary>A push added to every order, as much each time and by one step of phase further: its power, phase and steps are found as it was before it lagged.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public void What_was_added_is_found_behind_the_lag(int sign)
    {
        const double Step = 0.7;
        var numbers = Numbers(Orders(order => (Before(order) + Complex.FromPolarCoordinates(0.02, Step * order)) * Turned(order), Before), sign: sign);
        for (var order = 1; order <= ChangedOrders.Orders; order++)
        {
            var flip = sign < 0 && order % 2 == 0 ? -1 : 1;
            Assert.Equal(2 * Math.Log10(0.02), At(numbers, order, 0), 1e-4);
            Assert.Equal(flip * Math.Cos(Step * order), At(numbers, order, 1), 1e-9);
            Assert.Equal(flip * Math.Sin(Step * order), At(numbers, order, 2), 1e-9);
            var relative = Complex.FromPolarCoordinates(0.02, Step * order) / Before(order);
            Assert.Equal(2 * Math.Log10(relative.Magnitude), At(numbers, order, 3), 1e-4);
            Assert.Equal(Math.Cos(relative.Phase), At(numbers, order, 4), 1e-9);
        }

        var steps = First + (PerOrder * ChangedOrders.Orders) + 2;
        var expected = sign > 0 ? Step : Step - Math.PI;
        Assert.All(numbers[steps..(steps + ChangedOrders.Orders - 1)], step => Assert.Equal(expected, step, 1e-9));
    }

    /// <summary>By the turn in place of the phase, where the windows before do not foretell it: the same is found, and that it was not foretold is said.</summary>
    [Fact]
    public void Where_the_phase_is_not_foretold_the_turn_stands_for_it()
    {
        Func<int, Complex> after = order => (Before(order) + 0.02) * Turned(order);
        var (foretold, turned) = (Numbers(Orders(after, Before)), Numbers(Orders(after, Before, lead: 1.7), turn: Lag));
        Assert.Equal([9, 9, 9, 9, foretold[4]], turned[..5]);
        Assert.Equal(foretold[5..], turned[5..]);
    }

    [Theory]
    [InlineData(-0.08, -0.08, 0.5, true)]
    [InlineData(-0.08, 0.15, 0.5, true)]
    [InlineData(-0.08, 0.3, 0.5, false)]
    [InlineData(3.1, -3.1, 0.5, true)]
    [InlineData(-0.08, -0.08, 2.7, false)]
    [InlineData(-0.08, -0.08, -1, false)]
    public void Old_windows_and_such_as_differ_do_not_foretell_the_phase(double last, double earlier, double seconds, bool foretold)
    {
        var orders = Orders(Before, Before);
        (orders[0], orders[1], orders[2]) = (last, earlier, seconds);
        Assert.Equal(foretold, OnsetChange.Foretold(orders));
    }

    /// <summary>An order added across the line shows as that, one added along it does not.</summary>
    [Fact]
    public void What_swings_across_the_line_is_told()
    {
        var along = Numbers(Orders(order => Before(order) + 0.02, Before, lead: 0));
        var beside = Numbers(Orders(order => Before(order) + 0.02, Before, lead: 0, across: order => order is 2 or 3 ? 0.02 : 0));
        var directions = First + (PerOrder * ChangedOrders.Orders) + 2 + (2 * (ChangedOrders.Orders - 1));
        Assert.True(along[directions + 1] < -4, $"across over along: 10^{along[directions + 1]:0.0}");
        Assert.Equal(0, beside[directions + 1], 1e-4);
        Assert.Equal(1, beside[directions + ChangedOrders.Directed + 1], 1e-9);
        Assert.Equal(1, beside[directions + (2 * ChangedOrders.Directed)], 1e-9);
    }

    private static double At(double[] numbers, int order, int which) => numbers[First + (PerOrder * (order - 1)) + which];

    private static Complex Turned(int order) => Complex.FromPolarCoordinates(1, -order * Lag);

    private static Complex Before(int order) => order == 1 ? 1 : Complex.FromPolarCoordinates(0.3 / order, 1.1 * order);

    private static double[] Numbers(double[] orders, double? turn = null, int sign = 1)
    {
        var numbers = new double[OnsetChange.Count];
        new OnsetChange().Fill(orders, turn, sign, numbers);
        return numbers;
    }

    private static double[] Orders(Func<int, Complex> now, Func<int, Complex> before, double lead = Lag, Func<int, double>? across = null)
    {
        var orders = new double[ChangedOrders.Count];
        (orders[0], orders[1], orders[2], orders[3]) = (lead, lead, 0.5, 0.001);
        (orders[ChangedOrders.Floor], orders[ChangedOrders.Floor + 1]) = (Floor, 2);
        for (var order = 1; order <= ChangedOrders.Orders; order++)
        {
            Put(ChangedOrders.Line + (4 * (order - 1)), now(order), before(order));
            if (order <= ChangedOrders.Directed)
            {
                var (at, off) = (ChangedOrders.Axes + (12 * (order - 1)), across?.Invoke(order) ?? 0);
                Put(at, (now(order) * Line.X) - (off * Line.Z), before(order) * Line.X);
                Put(at + 4, (now(order) * Line.Z) + (off * Line.X), before(order) * Line.Z);
            }
        }

        return orders;

        void Put(int at, Complex value, Complex then) => (orders[at], orders[at + 1], orders[at + 2], orders[at + 3]) = (value.Real, value.Imaginary, then.Real, then.Imaginary);
    }
}
