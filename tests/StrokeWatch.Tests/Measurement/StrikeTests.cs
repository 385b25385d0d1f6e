using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Benchmarks.Strikes;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>Strike and what looks like it, on seeded runs of the machine model.</summary>
public sealed class StrikeTests
{
    [Theory]
    [InlineData(50, 1, 3200, 0.30, 1)]
    [InlineData(60, 1, 3200, 0.30, 2)]
    [InlineData(60, 1, 1600, 0.30, 2)]
    [InlineData(50, 2, 3200, 0.30, 3)]
    [InlineData(60, 2, 6400, 0.50, 1)]
    public void A_strike_is_heard_in_every_cycle_or_every_second_or_third(double hertz, int strokes, double rate, double share, int every)
    {
        var report = Run(hertz, strokes, rate, scenario => scenario with { Strike = new() { ForceShare = share, Every = every } });

        Assert.True(report.Strike.Found, $"score {report.Strike.ScoreMax}");
        Assert.All(report.Windows, window => Assert.True(window.Reading.Strike, $"{window.Reading.StrikeScore}"));
    }

    [Theory]
    [InlineData(50, 1, 3200)]
    [InlineData(60, 1, 3200)]
    [InlineData(50, 2, 4000)]
    [InlineData(60, 2, 6400)]
    [InlineData(60, 1, 1600)]
    public void Nothing_else_is_called_a_strike(double hertz, int strokes, double rate)
    {
        var nominal = hertz * strokes;
        foreach (var degrees in (double[])[0, 60, 90, 120])
        {
            Quiet(scenario => scenario with { Supply = scenario.Supply with { FiringDegrees = degrees } }, $"firing angle {degrees}");
        }

        Quiet(scenario => scenario with { Material = new() { ImpactsPerSecond = 20 } }, "falling pieces");
        Quiet(scenario => scenario with { Material = new() { ImpactsPerSecond = 5, ImpactNewtons = 1500 } }, "heavy pieces");
        Quiet(scenario => scenario with { Material = new() { LumpNewtons = 60 } }, "lumps");
        Quiet(scenario => scenario with { Sensor = scenario.Sensor with { NoiseG = 0.05 } }, "noisy sensor");
        Quiet(
            scenario => scenario with { Neighbours = [new(nominal * 0.99, 0.5), new(nominal * 0.99 * 8, 0.3), new(nominal * 0.99 * 12, 0.3)] },
            "neighbouring machine");

        void Quiet(Func<FeederScenario, FeederScenario> change, string what)
        {
            var report = Run(hertz, strokes, rate, change);
            Assert.False(report.Strike.Found, $"{what}: score {report.Strike.ScoreMax}");
        }
    }

    [Fact]
    public void Below_the_rates_that_were_learnt_from_a_strike_is_not_judged_instead_of_guessed()
    {
        var report = Run(50, 1, 900, scenario => scenario);

        Assert.Null(report.Strike.ScoreMax);
        Assert.False(report.Strike.Found);
    }

    [Fact]
    public void A_sensor_mounted_upside_down_and_back_to_front_hears_the_same()
    {
        FeederScenario Striking(FeederScenario scenario) => scenario with { Strike = new() { ForceShare = 0.3 } };
        var upright = Run(50, 1, 3200, Striking);
        var turned = Run(50, 1, 3200, scenario => Striking(scenario) with { Sensor = scenario.Sensor with { TurnedDegrees = 180, SidewaysDegrees = 180 } });

        Assert.True(turned.Strike.Found, $"score {turned.Strike.ScoreMax}");
        Assert.InRange(turned.Strike.ScoreMax!.Value / upright.Strike.ScoreMax!.Value, 0.9, 1.1);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void A_rhythm_of_two_or_three_cycles_is_heard_at_one_kilohertz_too(int every)
    {
        var report = Run(50, 1, 1000, scenario => scenario with { Strike = new() { ForceShare = 0.3, Every = every } });

        Assert.True(report.Strike.Found, $"score {report.Strike.ScoreMax}");
        Assert.Equal(every, report.Strike.Every);
    }

    [Fact]
    public void A_window_that_begins_after_the_onset_is_called()
    {
        // Windows are half a second: the first whole one after the onset starts within 0.5 s of it.
        for (var from = 1.0; from < 1.5; from += 0.1)
        {
            var at = from;
            var report = Run(50, 1, 3200, scenario => scenario with { Strike = new() { ForceShare = 0.3, FromSeconds = at } });
            Assert.InRange(report.Strike.FirstSeconds!.Value, from - 0.5, from + 0.5);
        }
    }

    /// <summary>A part of the benchmark project's <c>strike-study</c>.</summary>
    [Fact]
    public void In_seeded_windows_of_every_kind_strikes_are_called_and_nothing_else()
    {
        // Faint irregular contact is the study's alone: half of its windows are called.
        foreach (var kind in Enum.GetValues<StudyKind>().Except([StudyKind.FaintContact]))
        {
            // Contact of a gap that is too small takes long to simulate; a run of it is five windows, all heard or none.
            var contact = kind is StudyKind.StrikeContact;
            foreach (var (supply, strokes) in contact ? [(60, 1)] : ((int, int)[])[(50, 1), (60, 2)])
            {
                var tally = StrikeStudy.Windows(kind, supply, strokes, 3200, contact ? 96 : 24, seed: 41);
                var (least, most) = kind > StudyKind.FaintContact ? (0, 0) : contact ? (90, 96) : kind < StudyKind.Faint ? (23, 24) : (18, 24);
                Assert.True(tally.Called >= least && tally.Called <= most, $"{kind} at {supply * strokes} Hz: {tally.Called} of {tally.Windows} called");
                Assert.True(kind >= StudyKind.Faint || tally.RuledOut == 0, $"{kind} at {supply * strokes} Hz: {tally.RuledOut} ruled out");
            }
        }
    }

    /// <summary>At 1 kHz many strikes look like the magnet's own orders: what is not called is left open, and a machine without strike is ruled out in part.</summary>
    [Fact]
    public void At_one_kilohertz_a_strike_that_is_not_called_is_not_ruled_out()
    {
        foreach (var kind in new[] { StudyKind.Strike, StudyKind.StrikeEverySecond, StudyKind.StrikeEveryThird, StudyKind.StrikeContact })
        {
            var tally = StrikeStudy.Windows(kind, 60, 1, 1000, kind == StudyKind.StrikeContact ? 40 : 150, seed: 43);
            Assert.True(tally.RuledOut <= 1, $"{kind}: {tally.Called} called, {tally.Possible} possible, {tally.RuledOut} ruled out of {tally.Windows}");
        }

        var healthy = StrikeStudy.Windows(StudyKind.Healthy, 60, 1, 1000, 150, seed: 44);
        Assert.True(healthy.Called == 0 && healthy.RuledOut > 30, $"healthy: {healthy.Called} called, {healthy.RuledOut} of {healthy.Windows} ruled out");
    }

    /// <summary>Hammering may flatten the tops of the waveform as a rail does; where the stated range lies far above them it is listened to all the same.</summary>
    [Fact]
    public void Hammering_that_looks_like_a_rail_far_below_the_stated_range_is_judged()
    {
        foreach (var (kind, supply, strokes) in new[] { (StudyKind.StrikeEveryThird, 60, 1), (StudyKind.StrikeEverySecond, 60, 2) })
        {
            var tally = StrikeStudy.Windows(kind, supply, strokes, 1600, 30, seed: 31);
            Assert.Equal(tally.Windows, tally.Judged);
            Assert.True(tally.Called >= 29, $"{kind}: {tally.Called} of {tally.Windows} called");
        }
    }

    private static StrokeWatch.Assessment.Reports.AssessmentReport Run(
        double hertz, int strokes, double rate, Func<FeederScenario, FeederScenario> change)
    {
        var stroke = 1.6 * Math.Pow(60 / (hertz * strokes), 2);
        var feeder = new FeederDescription
        {
            Name = "Sand feeder",
            Drive = new(hertz, strokes, false),
            Band = new(Length.FromMillimetres(0.97 * stroke), Length.FromMillimetres(1.03 * stroke), Length.FromMillimetres(1.1 * stroke)),
        };
        using var source = new SimulatedFeederSource(change(new()
        {
            Feeder = feeder,
            Seed = 20,
            DurationSeconds = 3,
            Stroke = Length.FromMillimetres(stroke),
            Sensor = new() { RateHz = rate, RateErrorPpm = 4000, RangeG = 64 },
        }));
        return Replayer.Run("strike", source, feeder, new AlarmDelays()).Report;
    }
}
