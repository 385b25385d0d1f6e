using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

public sealed class WindowPortraitTests
{
    private const double Rate = 3200;
    private const double Drive = 50;
    private const double Stroke = 1.7e-3;

    private static readonly MeterSettings Settings = new() { Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = Rate, NominalHz = Drive };

    [Fact]
    public void Orders_path_and_samples_are_those_of_a_signal_known_in_closed_form()
    {
        var portrait = Take(Signal.Feeder(Stroke, Drive, 20, 0, 1, (2, 0.1), (9, 0.03)), 0.005)!;
        var first = Sinusoid.PeakAcceleration(Length.FromMetres(Stroke), Drive);
        Assert.Equal(first, portrait.Amplitude(1), 1e-5 * first);
        Assert.Equal(0.1 * first, portrait.Amplitude(2), 1e-5 * first);
        Assert.Equal(0.03 * first, portrait.Amplitude(9), 1e-5 * first);
        Assert.Equal(0, portrait.Amplitude(5), 1e-5 * first);
        Assert.Equal(Drive, portrait.DriveHz);
        var (sin, cos) = Math.SinCos(20 * Math.PI / 180);
        var along = Enumerable.Range(0, 2000).Select(i => i / 2000.0)
            .Select(cycles => cos * portrait.DisplacementAt(portrait.Channel(Axis.X)!.Value, cycles) + sin * portrait.DisplacementAt(portrait.Channel(Axis.Z)!.Value, cycles)).ToList();
        Assert.Equal(portrait.StrokeMetres, along.Max() - along.Min(), 1e-4 * Stroke);
        for (var n = 0; n < portrait.Samples.Count; n += 97)
        {
            Assert.Equal(portrait.Samples[n], portrait.AccelerationAt(portrait.CyclesAt(n)), 1e-5 * first);
        }
    }

    [Fact]
    public void What_comes_back_every_second_cycle_stands_at_the_half_orders()
    {
        var feeder = Signal.Feeder(Stroke, Drive, 20, 0, 1);
        var portrait = Take(t => [.. feeder(t).Select((value, axis) => value + (axis == 1 ? 0 : 3 * Math.Cos(2 * Math.PI * 6.5 * Drive * t)))], 0)!;
        var (sin, cos) = Math.SinCos(20 * Math.PI / 180);
        Assert.Equal(3 * (cos + sin), portrait.AmplitudeBetween(6.5), 0.01);
        Assert.InRange(portrait.AmplitudeBetween(4.5), 0, 0.3);
    }

    [Fact]
    public void The_noise_of_an_order_is_what_its_amplitude_shows_over_many_windows()
    {
        double square = 0, stated = 0;
        const int Windows = 60;
        for (var seed = 0; seed < Windows; seed++)
        {
            var portrait = Take(Signal.Feeder(Stroke, Drive, 20, 0.5, seed), 0)!;
            square += portrait.Amplitude(12) * portrait.Amplitude(12) / (2 * Windows);
            stated += portrait.NoiseDeviation / Windows;
        }

        Assert.Equal(stated, Math.Sqrt(square), 0.25 * stated);
    }

    [Fact]
    public void A_window_that_cannot_be_fitted_has_no_portrait()
    {
        Assert.Null(WindowPortrait.Take(Settings, [new double[100], new double[100]], Drive / Rate));
        Assert.Null(WindowPortrait.Take(Settings, [new double[100], new double[100], new double[100]], double.NaN));
        Assert.Null(WindowPortrait.Take(Settings with { Axes = [Axis.Y], LineAngleDegrees = 20 }, [new double[100]], Drive / Rate));
    }

    /// <summary>Takes a window of 25 cycles from a sensor whose clock is off by an error.</summary>
    private static WindowPortrait? Take(Func<double, double[]> signal, double clockError)
    {
        var count = (int)(25 * Rate * (1 + clockError) / Drive);
        var samples = new[] { new double[count], new double[count], new double[count] };
        var block = Signal.Blocks(signal, Rate, count / Rate, clockError, count).Single();
        for (var a = 0; a < samples.Length; a++)
        {
            block[a].CopyTo(samples[a]);
        }

        return WindowPortrait.Take(Settings, samples, Drive / Rate);
    }
}
