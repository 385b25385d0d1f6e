using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Samples;

/// <summary>
/// Source: NASA Goddard FEMCI, "What does double amplitude mean in sine vibration?" (x'' = 2π²f²D, worked entry 0.32 in, 10 and 20 Hz);
/// the other rows are computed from the same relation.
/// </summary>
public sealed class SinusoidTests
{
    [Theory]
    [InlineData(60, 0.06, 11.0432405737, 11.30973355)]
    [InlineData(60, 0.0625, 11.5033755976, 11.78097245)]
    [InlineData(120, 0.02, 14.724320765, 7.539822369)]
    [InlineData(30, 0.25, 11.5033755976, 23.5619449)]
    [InlineData(10, 0.32, 1.63603564055, 10.05309649)]
    [InlineData(20, 0.32, 6.5441425622, 20.10619298)]
    public void A_stroke_in_inches_gives_peak_acceleration_and_velocity(double hertz, double inches, double gPeak, double inchesPerSecond)
    {
        var stroke = Length.FromInches(inches);

        Assert.Equal(gPeak, Sinusoid.PeakAcceleration(stroke, hertz) / Gravity.Standard, 2e-10);
        Assert.Equal(inchesPerSecond, Sinusoid.PeakVelocity(stroke, hertz) / Length.MetresPerInch, 1e-8);
        Assert.Equal(inches, Sinusoid.Stroke(gPeak * Gravity.Standard, hertz).Inches, 1e-11);
    }

    [Theory]
    [InlineData(50, 1.5, 7.5481467176)]
    [InlineData(100, 0.4, 8.05135649878)]
    [InlineData(25, 4.0, 5.03209781173)]
    public void A_stroke_in_millimetres_gives_peak_acceleration(double hertz, double millimetres, double gPeak) =>
        Assert.Equal(gPeak, Sinusoid.PeakAcceleration(Length.FromMillimetres(millimetres), hertz) / Gravity.Standard, 2e-10);

    [Fact]
    public void Ten_g_and_sixty_thousandths_of_an_inch_meet_at_57_hertz() =>
        Assert.Equal(57.095645038, Sinusoid.Crossover(Length.FromInches(0.06), 10 * Gravity.Standard), 2e-9);

    [Theory]
    [InlineData(0.035, 4.9)]
    [InlineData(0.075, 9.8)]
    [InlineData(0.1, 14.7)]
    [InlineData(0.15, 19.6)]
    [InlineData(0.35, 49)]
    [InlineData(0.75, 98)]
    [InlineData(1.5, 196)]
    public void The_crossover_pairs_of_IEC_60068_2_6_lie_between_57_and_62_hertz(double amplitudeMillimetres, double acceleration)
    {
        // IEC 60068-2-6:2007, 5.2, from memory: amplitudes are zero to peak, so the stroke is twice that.
        var stroke = Length.FromMillimetres(2 * amplitudeMillimetres);
        Assert.InRange(Sinusoid.Crossover(stroke, acceleration), 57, 62);
    }
}
