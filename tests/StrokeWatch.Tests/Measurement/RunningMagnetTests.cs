using System.Numerics;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>The magnet's part in what a start shows, against the law of the flux itself, integrated here step by step.</summary>
public sealed class RunningMagnetTests
{
    private const double Swing = 0.4;
    private static readonly DecayReading Start = new(0.5, 63, 0.024, 0.03) { DampingUncertainty = 4e-4, TuningUncertainty = 5e-4, DriveHz = 60, From = TransientKind.Start };

    /// <summary>dδφ/dθ = ρφ·x/g₀ beside the flux of a coil without loss, which a half-wave switch ends with each cycle and alternating current never does; pull φ².</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_is_taken_off_is_half_of_what_the_most_lossy_coil_does(bool twice)
    {
        const int Steps = 20_000;
        const double Most = 0.2;
        var order = twice ? 2 : 1;
        Complex more = 0, part = 0, pull = 0, mean = 0;
        for (var pass = 0; pass < 2; pass++)
        {
            // An alternating flux keeps no constant part: what the first cycle leaves is taken off for the second.
            more = pass == 1 && twice ? -mean / Steps : 0;
            (part, pull, mean) = (0, 0, 0);
            for (var n = 0; n < Steps; n++)
            {
                var at = (n + 0.5) * 2 * Math.PI / Steps;
                var flux = twice ? -Math.Cos(at) : 1 - Math.Cos(at);
                var step = flux * Complex.Exp(Complex.ImaginaryOne * order * at) * (2 * Math.PI / Steps);
                more += 0.5 * step;
                part += 2 * flux * more * Complex.Exp(-Complex.ImaginaryOne * order * at) / Steps;
                pull += 2 * flux * flux * Math.Cos(order * at) / Steps;
                mean += more;
                more += 0.5 * step;
            }
        }

        // x = g₀·κ·(…): stiffness over pull is one over the magnification.
        var (r, z) = (60.0 / 63, 0.024);
        var kappa = Swing * Math.Sqrt(Math.Pow(1 - r * r, 2) + Math.Pow(2 * z * r, 2));
        var share = Most * kappa / pull.Magnitude * part;
        var taken = new RunningMagnet { GapsPerMetre = 400, TwiceACycle = twice }.TakenOff(Start, Swing / 400);

        Assert.Equal(0.5 * share.Real / 2 * 63, taken.MagnetHz, 2e-4);
        Assert.Equal(0.5 * -share.Imaginary / 2, taken.MagnetDamping, 1e-6);
        Assert.Equal(63 + taken.MagnetHz, taken.NaturalFrequencyHz, 1e-12);
        Assert.Equal(0.024 - taken.MagnetDamping, taken.DampingRatio, 1e-12);

        // A rectangle from nothing to the most: its half-width over √3, twice.
        Assert.Equal(Math.Sqrt(Math.Pow(0.03, 2) + Math.Pow(2 * taken.MagnetHz / Math.Sqrt(3), 2)), taken.FrequencyUncertaintyHz, 1e-9);
        Assert.Equal(Math.Sqrt(Math.Pow(4e-4, 2) + Math.Pow(2 * taken.MagnetDamping / Math.Sqrt(3), 2)), taken.DampingUncertainty, 1e-9);
        Assert.True(twice ? taken.MagnetHz == 0 : taken.MagnetHz is > 0.05 and < 0.2, $"{taken}");
    }

    /// <summary>dδφ/dθ = ρ(φ·x/g₀ − δφ) beside φ = −cos θ, the beat and all; pull 2(b + φ)δφ at the vibration's own frequency; ρ over 0 to 0.2 and 1/b over 0 to 1.5, even.</summary>
    [Theory]
    [InlineData(63)]
    [InlineData(57)]
    [InlineData(60.3)]
    public void Beside_a_flux_of_its_own_the_mean_of_what_coils_and_magnets_do_is_taken_off(double hertz)
    {
        const int Coils = 40;
        const int Steps = 100;
        var beat = hertz / 60 - 1;
        var beats = (int)Math.Round(1 / Math.Abs(beat));
        Complex mean = 0;
        double square = 0, squareOfReal = 0;
        for (var coil = 0; coil < Coils; coil++)
        {
            var resistance = 0.2 * (coil + 0.5) / Coils;
            var settle = beats * (int)Math.Ceiling(6 / resistance / (2 * Math.PI) / beats);
            var (flux, part) = (0.0, Complex.Zero);
            var d = 2 * Math.PI / Steps;
            for (var n = 0; n < (settle + beats) * Steps; n++)
            {
                var at = (n + 0.5) * d;
                var (own, x) = (-Math.Cos(at), Math.Cos((1 + beat) * at));
                var change = resistance * d * (own * x - flux) / (1 + 0.5 * resistance * d);
                if (n >= settle * Steps)
                {
                    part += 2 * own * (flux + 0.5 * change) * Complex.Exp(-Complex.ImaginaryOne * (1 + beat) * at) * 2 / (beats * Steps);
                }

                flux += change;
            }

            // Over the pull's fundamental, 2b.
            (mean, square, squareOfReal) = (mean + part / 2 / Coils, square + part.Imaginary * part.Imaginary / 4 / Coils, squareOfReal + part.Real * part.Real / 4 / Coils);
        }

        var (r, z) = (60.0 / hertz, 0.024);
        var kappa = Swing * Math.Sqrt(Math.Pow(1 - r * r, 2) + Math.Pow(2 * z * r, 2));
        var taken = new RunningMagnet { GapsPerMetre = 400, Biased = true }.TakenOff(Start with { NaturalFrequencyHz = hertz }, Swing / 400);

        Assert.Equal(0.75 * kappa * mean.Real / 2 * hertz, taken.MagnetHz, 0.03 * Math.Abs(taken.MagnetHz));
        Assert.Equal(0.75 * kappa * -mean.Imaginary / 2, taken.MagnetDamping, 0.03 * Math.Abs(taken.MagnetDamping));
        Assert.Equal(Math.Sign(hertz - 60), Math.Sign(taken.MagnetDamping));

        // The mean of 1/b squared is 0.75.
        var (softSpread, lagSpread) = (Math.Sqrt(0.75 * squareOfReal - Math.Pow(0.75 * mean.Real, 2)), Math.Sqrt(0.75 * square - Math.Pow(0.75 * mean.Imaginary, 2)));
        Assert.Equal(2 * kappa * softSpread / 2 * hertz, taken.MagnetHzUncertainty, 0.03 * taken.MagnetHzUncertainty);
        Assert.Equal(2 * kappa * lagSpread / 2, taken.MagnetDampingUncertainty, 0.03 * taken.MagnetDampingUncertainty);
        Assert.Equal(Math.Sqrt(Math.Pow(4e-4, 2) + Math.Pow(taken.MagnetDampingUncertainty, 2)), taken.DampingUncertainty, 1e-12);
    }

    /// <summary>A stroke twice a cycle is made by the alternating flux alone.</summary>
    [Fact]
    public void A_flux_of_its_own_takes_no_part_in_a_stroke_twice_a_cycle() => Assert.Equal(
        new RunningMagnet { TwiceACycle = true }.TakenOff(Start, 1e-3), new RunningMagnet { TwiceACycle = true, Biased = true }.TakenOff(Start, 1e-3));

    [Fact]
    public void A_feeder_file_without_a_gap_is_given_a_usual_one() => Assert.Equal(
        new RunningMagnet { GapsPerMetre = 450 }.TakenOff(Start, 1e-3).MagnetHz, new RunningMagnet().TakenOff(Start, 0.2e-3).MagnetHz, 1e-12);

    [Fact]
    public void No_magnet_takes_more_damping_than_is_there()
    {
        var light = Start with { NaturalFrequencyHz = 75, DampingRatio = 0.004 };
        var taken = new RunningMagnet().TakenOff(light, 1e-3);

        Assert.Equal(0.55 * 0.004, taken.DampingRatio, 1e-12);
        Assert.True(taken.MagnetHz < 0.1, $"{taken}");
    }

    [Fact]
    public void Many_starts_make_the_magnets_doubt_no_smaller_and_a_stop_outweighs_them()
    {
        var start = new RunningMagnet().TakenOff(Start, 1e-3);
        var (_, many) = FreeDecays.Frequency([.. Enumerable.Repeat(start, 50)])!.Value;
        Assert.InRange(many, 2 * start.MagnetHz / Math.Sqrt(3), start.FrequencyUncertaintyHz);

        var stop = new DecayReading(9, 63.4, 0.02, 0.02) { DampingUncertainty = 3e-4, DriveHz = 60 };
        var (value, both) = FreeDecays.Frequency([start, stop])!.Value;
        Assert.InRange(value, 63.38, 63.4);
        Assert.InRange(both, 0.018, 0.02);
        Assert.Equal(0.02, FreeDecays.Frequency([stop])!.Value.Uncertainty, 1e-12);
    }
}
