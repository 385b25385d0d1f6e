using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Benchmarks;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Quality;

/// <summary>
/// Rails that noise has blurred, on seeded windows whose true stroke is known in closed form: a small part of the benchmark project's <c>clipping</c> command.
/// Noise comes after the limiter, samples are rounded to 8 to 16 bit; rate, drive, clock and phases are random.
/// </summary>
[Collection(Undisturbed.Name)]
public sealed class BlurredRailTests
{
    [Theory]
    [InlineData(false, 1)]
    [InlineData(true, 2)]
    public void No_whole_window_is_called_clipped_however_its_second_and_third_harmonic_flatten_it(bool harmonics, int seed)
    {
        var study = Clipping.Study(harmonics ? Clipping.Third : Clipping.Sine, new(1, false), 1200, seed);
        Assert.Equal((1200, 0), (study.Windows, study.Called));
    }

    [Theory]
    [InlineData(8)]
    [InlineData(10)]
    public void Rounding_alone_is_not_a_rail(int bits) =>
        Assert.Equal(0, Clipping.Study(Clipping.Third, new(1, false, Noise: 0, Bits: bits), 600, 3).Called);

    [Fact]
    public void A_window_that_more_harmonics_shape_is_seldom_taken_for_a_cut_one() =>
        Assert.InRange(Clipping.Study(Clipping.Eighth, new(1, false), 600, 4).Called + Clipping.Study(Clipping.Fifth, new(1, false), 600, 4).Called, 0, 6);

    [Theory]
    [InlineData(0.5, false)]
    [InlineData(0.5, true)]
    [InlineData(0.7, false)]
    [InlineData(0.7, true)]
    [InlineData(0.9, false)]
    [InlineData(0.9, true)]
    public void A_cut_below_nine_tenths_is_found_and_bounded_with_the_range_unknown(double level, bool oneSided)
    {
        foreach (var wave in new[] { Clipping.Sine, Clipping.Third })
        {
            var study = Clipping.Study(wave, new(level, oneSided), 120, 5);
            Assert.InRange(study.Called, 0.97 * study.Windows, study.Windows);
            Assert.Equal(study.Called, study.Bounded);
            Assert.Equal(0, study.Broken);
            Assert.InRange(study.Better, 0.4 * study.Bounded, study.Bounded);
            Assert.True(study.MeanBound > study.MeanPlain + 0.005, $"{study}");
        }
    }

    [Fact]
    public void Most_deep_cuts_of_a_waveform_with_orders_up_to_the_twelfth_are_found_and_the_others_do_not_count()
    {
        var whole = Clipping.Study(Clipping.Twelfth, new(1, false), 600, 8);
        Assert.InRange(whole.Called, 0, 3);
        Assert.InRange(whole.Undecided, 0, 30);
        var cut = Clipping.Study(Clipping.Twelfth, new(0.5, true), 150, 9);
        Assert.InRange(cut.Called, 0.65 * cut.Windows, cut.Windows);
        Assert.InRange(cut.Called + cut.Undecided, 0.97 * cut.Windows, cut.Windows);
        Assert.Equal(0, cut.Broken);
    }

    [Theory]
    [InlineData(0.5, true)]
    [InlineData(0.6, false)]
    [InlineData(0.8, true)]
    public void A_cut_that_its_own_high_orders_hide_gives_no_number_that_counts_with_the_range_unknown(double level, bool oneSided)
    {
        foreach (var wave in new[] { Clipping.SlightEighth, Clipping.Eighth, Clipping.Fifth })
        {
            var cut = Clipping.Study(wave, new(level, oneSided), 120, 12);
            Assert.InRange(cut.Called + cut.Undecided, (wave == Clipping.Fifth ? 0.93 : 0.98) * cut.Windows, cut.Windows);
            Assert.InRange(cut.Broken, 0, 1);
        }
    }

    // Orders up to the 12th, cut on one side: the cut and a shape of the machine's own explain the cycle alike.
    [Fact]
    public void Flat_tops_that_may_be_a_rail_are_said_to_be_so_and_an_over_stroke_among_them_is_one()
    {
        const double Stroke = 2.4e-3;
        var windows = StrokeMeterTests.Measure(Hidden(Stroke), Settings(null), 15);
        Assert.All(windows, window =>
        {
            Assert.Equal((WindowQuality.Noisy, true), (window.Quality, window.MayBeClipped));
            Assert.Contains("the sensor's range is not stated", window.Reason, StringComparison.Ordinal);
            Assert.InRange(window.AtLeastMetres!.Value, 1.9e-3, Stroke);
        });

        var assessor = new FeederAssessor(
            new() { Name = "Sand feeder", Drive = new(60, 1, Free: false), Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.9)) }, new());
        var heard = new List<AlarmTransition>();
        Assert.All(windows, window => Assert.Equal(Verdict.OverStroke, assessor.Take(window, heard.Add)));
        Assert.Contains("(the sensor may clip)", Assert.Single(heard, transition => transition.Kind == AlarmKind.OverStroke).Words, StringComparison.Ordinal);
        Assert.Contains("full_scale_g", Assert.Single(heard, transition => transition.Kind == AlarmKind.Unmeasurable).Words, StringComparison.Ordinal);
        Assert.DoesNotContain(heard, transition => transition.Kind == AlarmKind.SensorClipped);
    }

    [Fact]
    public void The_same_flat_tops_count_where_the_range_that_is_stated_lies_far_above_them() =>
        Assert.All(
            StrokeMeterTests.Measure(Hidden(2.4e-3), Settings(64 * Gravity.Standard), 4),
            window => Assert.Equal((WindowQuality.Good, false), (window.Quality, window.MayBeClipped)));

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_slight_cut_that_is_missed_costs_less_than_two_percent(bool oneSided)
    {
        var study = Clipping.Study(Clipping.Third, new(0.95, oneSided), 300, 6);
        Assert.InRange(study.Called, 0.85 * study.Windows, study.Windows);
        Assert.Equal(0, study.Broken);
        Assert.InRange(study.WorstMissed, 0, 0.02);
    }

    [Theory]
    [InlineData(-0.05)]
    [InlineData(-0.02)]
    [InlineData(0)]
    [InlineData(0.05)]
    public void A_known_rail_is_found_where_its_gain_is_off_and_noise_blurs_it(double error)
    {
        foreach (var level in new[] { 0.6, 0.9 })
        {
            var study = Clipping.Study(Clipping.Third, new(level, false, Known: true, RailError: error), 150, 7);
            Assert.Equal(study.Windows, study.Called);
            Assert.Equal(0, study.Broken);
        }
    }

    // sin x + (1/9) sin 3x is as flat at its top as two terms can make it (its second derivative is 0 there), and has no corner.
    [Theory]
    [InlineData(0)]
    [InlineData(0.02)]
    public void A_waveform_that_its_third_harmonic_flattens_is_measured(double noise)
    {
        var windows = StrokeMeterTests.Measure(Wave(noise, 8, phase => Math.Sin(phase) + Math.Sin(3 * phase) / 9), Settings(null), 3);
        Assert.All(windows, window => Assert.Equal(WindowQuality.Good, window.Quality));
    }

    // Cut at four times the rate, then filtered to 0.4 of the new one (windowed sinc, 81 taps) and decimated: the rail rings and no two samples on it are alike.
    [Theory]
    [InlineData(0.9)]
    [InlineData(0.7)]
    public void A_rail_that_a_later_filter_has_rung_on_is_found(double level)
    {
        const int Over = 4, Taps = 81;
        var taps = Enumerable.Range(-Taps / 2, Taps)
            .Select(n => (n == 0 ? 0.2 : Math.Sin(0.2 * Math.PI * n) / (Math.PI * n)) * (0.5 + 0.5 * Math.Cos(2 * Math.PI * n / (Taps + 1)))).ToArray();
        var random = new Random(11);
        double Cut(double t) => Math.Clamp(100 * Math.Sin(2 * Math.PI * 60 * t), -100 * level, 100 * level);
        double[] Filtered(double t)
        {
            var sum = 0.0;
            for (var n = 0; n < Taps; n++)
            {
                sum += taps[n] * Cut(t + (n - Taps / 2) / (3200.0 * Over));
            }

            return [sum + 0.3 * Signal.Gauss(random), 0.3 * Signal.Gauss(random), Gravity.Standard + 0.3 * Signal.Gauss(random)];
        }

        var windows = StrokeMeterTests.Measure(Filtered, Settings(null), 3);
        var truth = Sinusoid.Stroke(100, 60).Metres;
        Assert.All(windows, window => Assert.Equal(WindowQuality.Clipped, window.Quality));
        Assert.All(windows, window => Assert.InRange(window.AtLeastMetres!.Value, 0.9 * level * truth, truth));
    }

    [Fact]
    public void Gravity_on_one_axis_makes_its_top_clip_alone_and_the_bound_is_close()
    {
        const double Stroke = 1.7e-3;
        var feeder = Signal.Feeder(Stroke, 60, 70, 0, 5);
        var random = new Random(8);
        var rail = 11.8 * Gravity.Standard;
        var windows = StrokeMeterTests.Measure(
            t => [.. feeder(t).Select(value => Math.Clamp(value, -rail, rail) + 1.5 * Signal.Gauss(random))], Settings(null), 3);

        // 12.3 g of peak: z swings from -10.6 to +12.6 g.
        Assert.All(windows, window =>
        {
            Assert.Equal(WindowQuality.Clipped, window.Quality);
            Assert.Null(window.StrokeMetres);
            Assert.InRange(window.AtLeastMetres!.Value, 0.96 * Stroke, Stroke);
        });
    }

    [Fact]
    public void An_over_stroke_is_an_over_stroke_though_blurred_rails_hide_how_much()
    {
        var feeder = Signal.Feeder(2.2e-3, 60, 20, 0, 5);
        var random = new Random(9);
        var rail = 12 * Gravity.Standard;
        var windows = StrokeMeterTests.Measure(
            t => [.. feeder(t).Select(value => Math.Clamp(value, -rail, rail) + 2 * Signal.Gauss(random))], Settings(null), 4);
        var assessor = new FeederAssessor(
            new() { Name = "Sand feeder", Drive = new(60, 1, Free: false), Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.9)) }, new());
        var heard = new List<AlarmTransition>();

        Assert.All(windows, window => Assert.Equal(Verdict.OverStroke, assessor.Take(window, heard.Add)));
        Assert.All(windows, window => Assert.InRange(window.AtLeastMetres!.Value, 1.9e-3, 2.2e-3));
        var alarm = Assert.Single(heard, transition => transition.Kind == AlarmKind.OverStroke);
        Assert.Contains("at least ", alarm.Words, StringComparison.Ordinal);
        Assert.Contains("Stop the feeder", alarm.Words, StringComparison.Ordinal);
        Assert.Null(alarm.StrokeMetres);
    }

    [Fact]
    public void Nothing_is_allocated_a_clipped_window()
    {
        var random = new Random(10);
        var feeder = Signal.Feeder(2.2e-3, 60, 20, 0, 5);
        var blocks = Signal.Blocks(t => [.. feeder(t).Select(value => Math.Clamp(value, -100, 100) + Signal.Gauss(random))], 3200, 8).ToArray();
        var meter = new StrokeMeter(Settings(null));
        var sink = new Signal();
        sink.Windows.EnsureCapacity(1000);
        foreach (var block in blocks.Take(20))
        {
            meter.Add(block, sink);
        }

        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 20; i < blocks.Length; i++)
        {
            meter.Add(blocks[i], sink);
        }

        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
        Assert.All(sink.Windows, window => Assert.Equal(WindowQuality.Clipped, window.Quality));
    }

    internal static Func<double, double[]> Hidden(double strokeMetres)
    {
        var random = new Random(5);
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMetres(strokeMetres), 60);
        var orders = Enumerable.Range(1, 12).Select(k => (Order: k, Share: k == 1 ? 1 : 0.06 * random.NextDouble(), Phase: 2 * Math.PI * random.NextDouble())).ToArray();
        double At(double cycles) => amplitude * orders.Sum(one => one.Share * Math.Cos(2 * Math.PI * one.Order * cycles + one.Phase));
        var rail = 0.75 * Enumerable.Range(0, 720).Max(i => At(i / 720.0));
        return t => [0.1 * Signal.Gauss(random), 0.1 * Signal.Gauss(random), Math.Min(At(60 * t), rail) + 0.04 * amplitude * Signal.Gauss(random)];
    }

    internal static MeterSettings Settings(double? fullScale) =>
        StrokeMeterTests.Settings(60, 3200) with { FullScale = fullScale, Contributions = StrokeContributions.None };

    internal static Func<double, double[]> Wave(double noise, int seed, Func<double, double> shape)
    {
        var random = new Random(seed);
        return t =>
        {
            var along = 100 * shape(2 * Math.PI * 60 * t);
            return [0.9 * along + 100 * noise * Signal.Gauss(random), 0.01 * Signal.Gauss(random), 0.4 * along + Gravity.Standard + 100 * noise * Signal.Gauss(random)];
        };
    }
}
