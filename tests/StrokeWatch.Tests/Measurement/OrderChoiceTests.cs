using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>How many orders are fitted, on seeded signals; the threshold is a stated probability, which is counted here.</summary>
public sealed class OrderChoiceTests
{
    private const int All = 36;
    private const int Count = 2000;
    private const double Frequency = 0.0125;
    private readonly Random random = new(77);
    private readonly HarmonicFit fit = new(3, 40);
    private readonly OrderChoice choice = new();
    private double[][] samples = [];

    [Fact]
    public void After_a_look_only_what_stands_out_of_the_noise_is_fitted()
    {
        Assert.Equal(All, Window((1, 50), (20, 0.5)));
        Assert.Equal(22, Window((1, 50), (20, 0.5)));
    }

    [Fact]
    public void A_plain_waveform_is_fitted_to_the_fewest_orders_and_looked_into_every_sixteenth_window()
    {
        var orders = Enumerable.Range(0, 49).Select(_ => Window((1, 50), (3, 2))).ToList();
        Assert.Equal([0, 16, 32, 48], orders.Index().Where(pair => pair.Item == All).Select(pair => pair.Index));
        Assert.All(orders.Where(count => count != All), count => Assert.Equal(OrderChoice.Fewest, count));
    }

    [Theory]
    [InlineData(28, 0.1)]
    [InlineData(15, 1)]
    public void An_order_that_appears_between_two_looks_is_fitted_in_the_very_window(int order, double amplitude)
    {
        for (var i = 0; i < 5; i++)
        {
            _ = Window((1, 50));
        }

        Assert.Equal(All, Window((1, 50), (order, amplitude)));
        Assert.Equal(order + 2, Window((1, 50), (order, amplitude)));
    }

    [Fact]
    public void Noise_alone_adds_no_order_but_for_the_stated_probability()
    {
        var many = 0;
        for (var i = 0; i < 1500; i++)
        {
            var fresh = new OrderChoice();
            Fit(All, (1, 50));
            fresh.Take(fit, All);
            many += fresh.Orders(All) > OrderChoice.Fewest ? 1 : 0;
        }

        // 1500 looks at 1e-4 each: 0.15 expected, three or more once in 2000 such tests.
        Assert.InRange(many, 0, 2);
    }

    [Fact]
    public void Louder_noise_is_looked_into_once_and_then_taken_as_it_is()
    {
        for (var i = 0; i < 4; i++)
        {
            _ = Window((1, 50));
        }

        var looks = Enumerable.Range(0, 12).Count(_ => Window(3, (1, 50)) == All);
        Assert.InRange(looks, 1, 2);
    }

    private int Window(params (int Order, double Amplitude)[] harmonics) => Window(0.05, harmonics);

    private int Window(double noise, params (int Order, double Amplitude)[] harmonics)
    {
        Fit(choice.Orders(All), noise, harmonics);
        if (choice.Take(fit, All))
        {
            Assert.True(fit.Fit(samples, 0, Count, Frequency, All, follow: true));
            Assert.False(choice.Take(fit, All));
        }

        return fit.Orders;
    }

    private void Fit(int orders, params (int Order, double Amplitude)[] harmonics) => Fit(orders, 0.05, harmonics);

    private void Fit(int orders, double noise, params (int Order, double Amplitude)[] harmonics)
    {
        samples = [.. Enumerable.Range(0, 3).Select(axis => Enumerable.Range(0, Count).Select(n =>
            noise * Signal.Gauss(random) + harmonics.Sum(h => h.Amplitude * Math.Cos(2 * Math.PI * h.Order * Frequency * n + axis))).ToArray())];
        Assert.True(fit.Fit(samples, 0, Count, Frequency, orders, follow: true));
    }
}
