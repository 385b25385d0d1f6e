using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Supply;

public sealed class SupplyReaderTests
{
    private const double Rate = 4000;

    /// <summary>The motion of <see cref="Signal.Feeder"/> is −cos(ωt + 0.7), whose sine runs 0.7 − π/2 ahead of the time's.</summary>
    private static readonly double Motion = 0.7 - (Math.PI / 2);

    [Theory]
    [InlineData(50, 1, 0)]
    [InlineData(50, 1, 1.1)]
    [InlineData(60, 1, -2.5)]
    [InlineData(50, 2, 0.4)]
    [InlineData(60, 2, -1.9)]
    public void A_known_sine_gives_its_volts_and_the_motions_phase_against_it(double hertz, int strokes, double phase)
    {
        var random = new Random(1);
        var windows = Measure(hertz, strokes, t => (Math.Sqrt(2) * 230 * Math.Sin((2 * Math.PI * hertz * t) + phase)) + (2 * Signal.Gauss(random)));
        Assert.All(windows, window =>
        {
            Assert.Equal(Math.Sqrt((230 * 230) + 4), window.RmsVolts!.Value, 0.2);
            Assert.Equal(230, window.FundamentalVolts!.Value, 0.2);
            Assert.Equal(0, Math.IEEERemainder(window.PhaseDegrees!.Value - ((Motion - (strokes * phase)) * 180 / Math.PI), 360), 0.15);
            Assert.Equal(1, window.ConductionShare);
            Assert.Null(window.FiringDegrees);
            Assert.Contains("no part of the cycle is without voltage", window.Reason, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void The_true_rms_holds_harmonics_and_a_constant_part()
    {
        var windows = Measure(50, 1, t => (Math.Sqrt(2) * ((230 * Math.Sin(2 * Math.PI * 50 * t)) + (12 * Math.Sin(2 * Math.PI * 250 * t)))) + 20);
        Assert.All(windows, window => Assert.Equal(Math.Sqrt((230 * 230) + (12 * 12) + (20 * 20)), window.RmsVolts!.Value, 0.1));
    }

    /// <summary>Phase control on a resistive load: the rms by the closed formula of check-values 6.9.</summary>
    [Theory]
    [InlineData(2, 40)]
    [InlineData(2, 60)]
    [InlineData(2, 90)]
    [InlineData(2, 120)]
    [InlineData(2, 150)]
    [InlineData(1, 60)]
    [InlineData(1, 120)]
    public void A_cut_voltage_gives_rms_firing_angle_and_the_mains_behind_it(int strokes, double firing)
    {
        var random = new Random(2);
        var windows = Measure(50, strokes, t =>
        {
            var turn = (50 * t) + 0.213;
            turn -= Math.Floor(turn);
            var half = turn % 0.5 * 360;
            var on = half >= firing && (strokes == 2 || turn < 0.5);
            return (on ? Math.Sqrt(2) * 230 * Math.Sin(2 * Math.PI * turn) : 0) + Signal.Gauss(random);
        });
        var share = StrokeWatch.Machine.Magnet.Supply.PhaseControlRms(firing * Math.PI / 180) / Math.Sqrt(strokes == 2 ? 1 : 2);
        Assert.All(windows, window =>
        {
            Assert.Equal(230 * share, window.RmsVolts!.Value, 0.02 * 230);
            Assert.Equal(230, window.MainsVolts!.Value, 0.02 * 230);
            Assert.InRange(Math.Abs(window.FiringDegrees!.Value - firing), 0, window.FiringUncertaintyDegrees!.Value + 1);
            Assert.InRange(window.FiringUncertaintyDegrees!.Value, 0, 12);
            Assert.InRange(window.ConductionShare!.Value, 0, strokes == 2 ? 1 - (firing / 180) + 0.08 : 0.5 - (firing / 360) + 0.08);
            Assert.Equal(0, Math.IEEERemainder(window.PhaseDegrees!.Value - ((Motion - (strokes * 2 * Math.PI * 0.213)) * 180 / Math.PI), 360), 0.6);
        });
    }

    /// <summary>Through an inductive coil the current flows from α to 360° − α (power electronics textbooks, from memory).</summary>
    [Theory]
    [InlineData(100)]
    [InlineData(130)]
    public void An_inductive_coil_behind_a_one_way_switch_shows_the_same_angle_whichever_way_the_channel_is_wired(double firing)
    {
        foreach (var sign in (int[])[1, -1])
        {
            var windows = Measure(50, 1, t =>
            {
                var degrees = 360 * ((50 * t) - Math.Floor(50 * t));
                return degrees >= firing && degrees <= 360 - firing ? sign * Math.Sqrt(2) * 230 * Math.Sin(degrees * Math.PI / 180) : 0;
            });
            Assert.All(windows, window => Assert.InRange(Math.Abs(window.FiringDegrees!.Value - firing), 0, window.FiringUncertaintyDegrees!.Value + 1));
        }
    }

    /// <summary>The same behind a two-way switch: 130° to 230° and half a turn later; a recorder's own filter, here the mean over so many samples, rounds the edges.</summary>
    [Theory]
    [InlineData(100, 1)]
    [InlineData(130, 1)]
    [InlineData(130, 3)]
    [InlineData(145, 3)]
    [InlineData(155, 1)]
    [InlineData(155, 3)]
    public void An_inductive_coil_behind_a_two_way_switch_that_fires_late_shows_its_angle(double firing, int blurred)
    {
        var random = new Random(4);
        double Volts(double t)
        {
            var half = 360 * ((50 * t) - Math.Floor(50 * t)) % 180;
            return half >= firing || half <= 180 - firing ? Math.Sqrt(2) * 230 * Math.Sin(2 * Math.PI * 50 * t) : 0;
        }

        var windows = Measure(50, 2, t => Enumerable.Range(0, blurred).Average(i => Volts(t + ((i - ((blurred - 1) / 2.0)) / Rate))) + (2 * Signal.Gauss(random)));
        Assert.All(windows, window =>
        {
            Assert.True(window.FiringDegrees is not null, window.Reason);
            Assert.InRange(Math.Abs(window.FiringDegrees!.Value - firing), 0, window.FiringUncertaintyDegrees!.Value + 2);
            Assert.Equal(230, window.MainsVolts!.Value, 0.03 * 230);
        });
    }

    /// <summary>A filter's lag by its own transfer function, 1/(1 + s) and 1/(1 + √2 s + s²) with s = jf/f₀.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void The_lag_of_a_known_filter_is_taken_off_and_an_unknown_one_is_carried(int poles)
    {
        var supply = (double t) => Math.Sqrt(2) * 230 * Math.Sin(2 * Math.PI * 50 * t);
        var bare = Measure(50, 1, supply)[0];
        var known = Measure(50, 1, supply, lag: new(400, poles))[0];
        var s = new System.Numerics.Complex(0, 50 / 400.0);
        var lag = (1 + (poles == 1 ? s : (Math.Sqrt(2) * s) + (s * s))).Phase * 180 / Math.PI;

        Assert.Equal(lag, known.PhaseDegrees!.Value - bare.PhaseDegrees!.Value, 0.02);
        Assert.Equal(2 * 0.1 * lag / Math.Sqrt(3), known.PhaseUncertaintyDegrees!.Value, 0.01);

        // Two poles at a fifth of 4 kHz at the worst: 5.07°, rectangular, not taken off.
        Assert.Equal(2 * 5.073 / Math.Sqrt(3), bare.PhaseUncertaintyDegrees!.Value, 0.01);
    }

    [Fact]
    public void What_cannot_be_told_is_missing_with_its_reason()
    {
        var random = new Random(3);
        Assert.All(Measure(50, 1, _ => Signal.Gauss(random)), window =>
        {
            Assert.Equal(1, window.RmsVolts!.Value, 0.1);
            Assert.Null(window.PhaseDegrees);
            Assert.Equal("the channel shows no voltage at the supply's frequency", window.Reason);
        });
        Assert.All(Measure(50, 1, t => 300 * Math.Sign(Math.Sin(2 * Math.PI * 50 * t)) * (Math.Abs((t * 1000 % 1) - 0.5) < 0.25 ? 1 : 0)), window =>
        {
            Assert.Null(window.ConductionShare);
            Assert.Contains("no sine", window.Reason, StringComparison.Ordinal);
        });
        Assert.All(Measure(50, 1, t => 325 * Math.Sin(2 * Math.PI * 50 * t), rail: 320), window => Assert.Equal((null, "the supply's channel stands at the end of its range"), (window.RmsVolts, window.Reason)));
        Assert.All(Measure(50, 1, t => t % 0.1 < 0.001 ? double.NaN : 325 * Math.Sin(2 * Math.PI * 50 * t)), window =>
            Assert.Equal((null, "the supply's voltage is missing in some of the samples"), (window.RmsVolts, window.Reason)));
    }

    [Fact]
    public void A_channel_that_is_there_changes_nothing_of_the_stroke()
    {
        Signal with = new(), without = new();
        Run(with, 50, 1, t => 325 * Math.Sin(2 * Math.PI * 50 * t), null, channel: true);
        Run(without, 50, 1, _ => 0, null, channel: false);
        Assert.Equal(
            without.Windows.Select(window => (window.StartSeconds, window.StrokeMetres, window.UncertaintyMetres, window.LineAngleDegrees, window.StrikeScore, window.Quality, window.Motion, window.Reason)),
            with.Windows.Select(window => (window.StartSeconds, window.StrokeMetres, window.UncertaintyMetres, window.LineAngleDegrees, window.StrikeScore, window.Quality, window.Motion, window.Reason)));
        Assert.All(without.Windows, window => Assert.Null(window.Supply));
    }

    private static List<SupplyReading> Measure(double hertz, int strokes, Func<double, double> volts, double? rail = null, SensorLag lag = default)
    {
        var sink = new Signal();
        Run(sink, hertz, strokes, volts, rail, channel: true, lag);
        var windows = sink.Windows.Where(window => window is { Quality: WindowQuality.Good, Motion: MotionState.Running }).Select(window => window.Supply!.Value).ToList();
        Assert.True(windows.Count >= 3);
        return windows;
    }

    /// <summary>Runs a meter over three seconds; the channel holds the volts in fiftieths.</summary>
    private static void Run(Signal sink, double hertz, int strokes, Func<double, double> volts, double? rail, bool channel, SensorLag lag = default)
    {
        var meter = new StrokeMeter(new()
        {
            Axes = [Axis.X, Axis.Y, Axis.Z],
            RateHz = Rate,
            NominalHz = hertz * strokes,
            Supply = channel ? new SupplySettings(50, strokes, rail / 50) { Lag = lag } : null,
        });
        foreach (var block in Signal.Blocks(Signal.Feeder(1.5e-3, hertz * strokes, 20, 0.1, 5, (2, 0.08)), Rate, 3))
        {
            block.HasSupply = channel;
            for (var n = 0; channel && n < block.Count; n++)
            {
                block.FillSupply()[n] = volts(block.StartSeconds + (n / Rate)) / 50;
            }

            meter.Add(block, sink);
        }

        meter.Finish(sink);
    }
}
