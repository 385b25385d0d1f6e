using StrokeWatch.Machine.Magnet;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated;

public sealed class SimulatedFeederSourceTests
{
    [Fact]
    public void The_same_seed_gives_the_same_samples_and_another_seed_others()
    {
        var scenario = new FeederScenario { DurationSeconds = 0.3, Material = new() { ImpactsPerSecond = 50, LumpNewtons = 5 }, Supply = new() { WanderHz = 0.01 } };
        var first = Runs.Of(scenario);
        Assert.Equal(first.X, Runs.Of(scenario, 77).X);
        Assert.NotEqual(first.X, Runs.Of(scenario with { Seed = 2 }).X);
        Assert.Equal(960, first.X.Length);
    }

    [Theory]
    [InlineData(DriveKind.HalfWave, 50, 1.70, 0)]
    [InlineData(DriveKind.HalfWave, 60, 1.50, 0)]
    [InlineData(DriveKind.HalfWave, 50, 1.70, 125)]
    [InlineData(DriveKind.FullWave, 50, 0.43, 0)]
    [InlineData(DriveKind.FullWave, 60, 0.33, 110)]
    [InlineData(DriveKind.MagnetBiased, 50, 1.70, 0)]
    public void The_asked_stroke_is_the_true_one_and_the_one_that_an_independent_fit_reads(DriveKind kind, double supplyHz, double millimetres, double firing)
    {
        var strokes = kind == DriveKind.FullWave ? 2 : 1;
        var run = Runs.Of(Runs.Clean with
        {
            Stroke = Length.FromMillimetres(millimetres),
            Feeder = Runs.Clean.Feeder with { Drive = new(supplyHz, strokes, false), RestGapMetres = 3e-3 },
            Supply = new() { Kind = kind, FiringDegrees = firing },
        });
        var truth = run.Truth.Stroke!;
        var read = HarmonicFit.Stroke(run.X[..3200], run.Z[..3200], supplyHz * strokes, 3200, 12);
        Assert.Equal(millimetres, truth.PeakToPeak.Millimetres, 1e-4 * millimetres);
        Assert.Equal(1, read.PeakToPeak / truth.PeakToPeak.Metres, 1e-3);
        Assert.Equal(1, read.Fundamental / truth.Fundamental.Metres, 1e-3);
        Assert.Equal(truth.LineAngleDegrees, read.Degrees, 0.3);
        Assert.Equal(0, run.Truth.Strikes.Contacts);
    }

    [Fact]
    public void A_turned_sensor_sees_the_same_stroke_on_a_turned_line()
    {
        var straight = Runs.Of(Runs.Clean with { DurationSeconds = 1 });
        var turned = Runs.Of(Runs.Clean with { DurationSeconds = 1, Sensor = Runs.Clean.Sensor with { TurnedDegrees = 12 } });
        Assert.Equal(straight.Truth.Stroke!.LineAngleDegrees - 12, turned.Truth.Stroke!.LineAngleDegrees, 6);
        Assert.Equal(straight.Truth.Stroke!.PeakToPeak.Metres, turned.Truth.Stroke!.PeakToPeak.Metres, 12);
        Assert.Equal(turned.Truth.Stroke!.LineAngleDegrees, HarmonicFit.Stroke(turned.X, turned.Z, 50, 3200, 12).Degrees, 0.3);
    }

    [Fact]
    public void A_fast_clock_makes_the_drive_look_slow()
    {
        // Shared check-values 11: a rate error e scales the apparent frequency by 1/(1+e); +1 % shows 60 Hz as 59.40594059 Hz.
        var run = Runs.Of(Runs.Clean with { Feeder = Runs.Clean.Feeder with { Drive = new(60, 1, false) }, Sensor = Runs.Clean.Sensor with { RateErrorPpm = 10000 } });
        Assert.Equal(10000, run.Truth.SensorClockErrorPpm);
        var seen = HarmonicFit.Fit(run.X.AsSpan(0, 3200), 59.40594059, 3200, 12).Residual;
        var asIs = HarmonicFit.Fit(run.X.AsSpan(0, 3200), 60, 3200, 12).Residual;
        Assert.True(seen < 1e-3 * asIs, $"{seen} against {asIs}");
    }

    [Fact]
    public void Ninety_per_cent_of_the_voltage_makes_eighty_one_of_the_stroke()
    {
        // Shared check-values 6.9.
        var run = Runs.Of(Runs.Clean with { Stroke = Length.FromMillimetres(1.7), Supply = new() { Voltage = [(0, 90)] } });
        Assert.Equal(1.7 * 0.81, run.Truth.Stroke!.PeakToPeak.Millimetres, 1e-3);
        Assert.Equal("low", run.Truth.Verdict);
    }

    [Fact]
    public void At_rest_the_sensor_feels_gravity_split_by_the_deck()
    {
        var run = Runs.Of(Runs.Clean with
        {
            DurationSeconds = 0.2,
            Supply = new() { On = [(100, 101)] },
            Sensor = Runs.Clean.Sensor with { DeckDegrees = 10, OffsetG = (0.01, 0.02, 0.03) },
        });
        Assert.Equal(-Math.Sin(Math.PI / 18) + 0.01, run.X[^1] / Gravity.Standard, 9);
        Assert.Equal(0.02, run.Y[^1] / Gravity.Standard, 9);
        Assert.Equal(Math.Cos(Math.PI / 18) + 0.03, run.Z[^1] / Gravity.Standard, 9);
        Assert.Equal("stopped", run.Truth.Verdict);
        Assert.Null(run.Truth.Stroke);
    }

    [Fact]
    public void Noise_is_as_strong_as_asked_and_steps_are_those_of_the_bits()
    {
        var run = Runs.Of(new FeederScenario { Supply = new() { On = [(100, 101)] }, Sensor = new() { NoiseG = 0.04, RangeG = 16, Bits = 12 } });
        Assert.Equal(0.04, Math.Sqrt(run.X.Average(v => v * v)) / Gravity.Standard, 0.001);
        Assert.All(run.X, v => Assert.Equal(0, Math.IEEERemainder(v / Gravity.Standard, 32.0 / 4096), 9));
    }

    [Fact]
    public void A_range_too_small_clips_and_says_so()
    {
        var run = Runs.Of(Runs.Clean with { Sensor = new() { RangeG = 8 } });
        Assert.True(run.Truth.ClippedSamples > 100);
        Assert.Equal("unmeasurable", run.Truth.Verdict);
        Assert.True(run.X.Max() < 8 * Gravity.Standard);
        Assert.Equal(-8 * Gravity.Standard, run.X.Min(), 9);
    }

    [Fact]
    public void Lost_samples_are_a_gap_before_the_next_block()
    {
        var run = Runs.Of(Runs.Clean with { DurationSeconds = 1, Sensor = Runs.Clean.Sensor with { Gaps = [(0.2, 0.25), (0.7, 0.71)] } });
        Assert.Equal(3200 - 160 - 32, run.X.Length);
        Assert.Equal(2, run.Counters.Gaps);
        Assert.Equal(192, run.Counters.MissingSamples);
        Assert.Contains((0.25, 160), run.Blocks);
        Assert.Equal([160, 32], run.Truth.Gaps.Select(gap => gap.Missing));
    }

    [Fact]
    public void A_neighbour_s_tone_is_there_and_is_no_stroke()
    {
        var run = Runs.Of(Runs.Clean with { Supply = new() { On = [(100, 101)] }, Neighbours = [new(24.5, 0.1, 90)] });
        var fit = HarmonicFit.Fit(run.Z, 24.5, 3200, 1);
        Assert.Equal(0.1, double.Hypot(fit.Cos[0], fit.Sin[0]) / Gravity.Standard, 5);
        Assert.Null(run.Truth.Stroke);
    }

    [Fact]
    public void A_start_overshoots_and_a_coast_down_shows_the_natural_frequency()
    {
        var run = Runs.Of(Runs.Clean with
        {
            DurationSeconds = 4,
            Feeder = Runs.Clean.Feeder with { Drive = new(60, 1, false) },
            Supply = new() { On = [(0.5, 3)] },
            WarmStart = false,
        });
        var steady = run.X[(int)(2.5 * 3200)..(3 * 3200)].Max();
        Assert.InRange(run.X[..(2 * 3200)].Max() / steady, 1.1, 1.35);
        var free = run.X[(int)(3.05 * 3200)..(int)(3.25 * 3200)];
        var best = Enumerable.Range(-200, 401).Select(n => run.Truth.NaturalHz * (1 + (n * 1e-4)))
            .MinBy(hz => HarmonicFit.Fit(free.Select((v, i) => v * Math.Exp(2 * Math.PI * run.Truth.DampingRatio * hz * i / 3200)).ToArray(), hz, 3200, 1).Residual);
        Assert.Equal(1, best / run.Truth.NaturalHz, 1e-3);
        Assert.Equal([(0.5, 3.0)], run.Truth.On);
    }
}
