using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Sensors.Simulated.Faults;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated.Faults;

/// <summary>What each fault does to the machine, as a capture of it shows; the relations are textbook mechanics (two masses on a spring, from memory).</summary>
public sealed class FaultTests
{
    private static readonly FeederScenario Healthy = new()
    {
        DurationSeconds = 3.6,
        WarmStart = false,
        InternalHz = 20_000,
        Supply = new() { On = [(0, 2.4)] },
        Sensor = new() { NoiseG = 0.005 },
        Sensors = [new(SensorPlace.Front), new(SensorPlace.Rear)],
    };

    private static readonly Lazy<CaptureFeatures> Well = new(() => Shown(Healthy));

    public static TheoryData<string> Kinds() => [.. FaultTable.Names];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_kind_says_what_its_severity_means_and_changes_nothing_at_none(string kind)
    {
        Assert.NotEmpty(FaultTable.Meaning(kind));
        var none = Runs.Of(Short with { Faults = [new(kind, 0)] });
        Assert.Equal(Runs.Of(Short).Z, none.Z, (a, b) => Math.Abs(a - b) < 1e-9);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_kind_moves_the_samples_and_the_truth_names_it(string kind)
    {
        var faulty = Runs.Of(Short with { Faults = [new(kind, 1)] });
        Assert.NotEqual(Runs.Of(Short).X, faulty.X);
        Assert.Equal([new SimulatedFault(kind, 1)], faulty.Truth.Faults);
        Assert.All(faulty.Z, value => Assert.True(double.IsFinite(value)));
    }

    [Fact]
    public void A_fault_that_comes_in_the_run_leaves_what_came_before_as_it_was()
    {
        var (before, after) = (Runs.Of(Short), Runs.Of(Short with { Faults = [new("tray-heavier", 1, 0.5)] }));
        var onset = before.Z.Zip(after.Z).TakeWhile(pair => pair.First == pair.Second).Count() / Short.Sensor.RateHz;
        Assert.InRange(onset, 0.47, 0.51);
        Assert.True(Math.Abs(before.Z[^1] - after.Z[^1]) > 1);
    }

    [Theory]
    [InlineData("tray-heavier", 0.4)]
    [InlineData("tray-lighter", 0.5)]
    public void Mass_moves_the_natural_frequency_by_the_square_root_of_the_reduced_mass(string kind, double severity)
    {
        double Reduced(double tray) => tray * 70 / (tray + 70);
        var mass = kind == "tray-heavier" ? 1 + (0.25 * severity) : 1 - (0.15 * severity);
        Assert.Equal(Math.Sqrt(Reduced(35) / Reduced(35 * mass)), Truth(new(kind, severity)).NaturalHz / Truth(null).NaturalHz, 0.002);
    }

    [Fact]
    public void A_cracked_leaf_softens_by_its_share_of_the_stack_and_lets_its_own_end_move_more()
    {
        var (front, rear) = (Shown(Healthy with { Faults = [new("leaf-cracked-front", 0.4)] }), Shown(Healthy with { Faults = [new("leaf-cracked-rear", 0.4)] }));
        Assert.Equal(Math.Sqrt(1 - (0.4 * 0.5 / 5)), Truth(new("leaf-cracked-front", 0.4)).NaturalHz / Truth(null).NaturalHz, 0.002);
        Assert.True(front.FrontRear > 0.01 && rear.FrontRear < -0.01, $"{front.FrontRear}, {rear.FrontRear}");
        Assert.True(front.LineAngleDegrees > Well.Value.LineAngleDegrees && rear.LineAngleDegrees < Well.Value.LineAngleDegrees);
    }

    [Fact]
    public void A_low_supply_lowers_the_stroke_by_its_square_and_leaves_the_machine_alone()
    {
        var shown = Shown(Healthy with { Faults = [new("supply-low", 0.5)] });
        Assert.Equal(0.875 * 0.875, shown.Stroke!.Value / Well.Value.Stroke!.Value, 0.01);
        Assert.Equal(Well.Value.NaturalHz!.Value, shown.NaturalHz!.Value, 0.02);
    }

    [Fact]
    public void A_late_firing_angle_lowers_the_stroke_and_raises_its_harmonics()
    {
        var shown = Shown(Healthy with { Faults = [new("phase-cut-wrong", 1)] });
        Assert.True(shown.Stroke < 0.8 * Well.Value.Stroke, $"{shown.Stroke}, {Well.Value.Stroke}");
        Assert.True(shown.Levels!.Orders[2] > 3 * Well.Value.Levels!.Orders[2], $"{shown.Levels.Orders[2]}, {Well.Value.Levels.Orders[2]}");
    }

    [Fact]
    public void A_loose_clamp_softens_and_makes_odd_orders()
    {
        var shown = Shown(Healthy with { Faults = [new("clamp-loose", 1)] });
        Assert.True(shown.NaturalHz < 0.99 * Well.Value.NaturalHz, $"{shown.NaturalHz}, {Well.Value.NaturalHz}");
        Assert.True(shown.Levels!.Odd > 2.5 * Well.Value.Levels!.Odd, $"{shown.Levels.Odd}, {Well.Value.Levels.Odd}");
    }

    [Fact]
    public void A_rubbing_tray_makes_a_broad_series_of_orders_that_is_locked_to_the_drive()
    {
        var shown = Shown(Healthy with { Faults = [new("tray-rubbing", 1)] });
        Assert.True(shown.Levels!.High > 10 * Well.Value.Levels!.High);
        Assert.True(shown.Levels.Noise < 3 * Well.Value.Levels.Noise);
    }

    [Fact]
    public void Dirt_between_the_leaves_doubles_their_damping_half_way_beside_the_mounts_own()
    {
        var shown = Shown(Healthy with { Faults = [new("leaf-friction", 0.5)] });
        Assert.Equal(Healthy.Machine.DampingRatio, shown.DampingRatio!.Value - Well.Value.DampingRatio!.Value, 0.1 * Healthy.Machine.DampingRatio);
    }

    [Fact]
    public void The_reverse_side_has_the_same_stroke_with_its_natural_frequency_below_the_drive()
    {
        var shown = Shown(Healthy with { Faults = [new("reverse-side", 0.1)] });
        Assert.True(shown.TuningRatio < 0.97);
        Assert.Equal(Well.Value.Stroke!.Value, shown.Stroke!.Value, 0.01 * Well.Value.Stroke.Value);
    }

    [Fact]
    public void A_closed_gap_strikes_a_loose_sensor_rattles_and_a_dead_one_is_silent()
    {
        CaptureFeatures Closed(double severity) => Shown(Healthy with { Sensor = new() { RangeG = 200 }, Faults = [new("air-gap-small", severity)], Feeder = Healthy.Feeder with { RestGapMetres = 2e-3 } });

        // At 0.7 the hammering has no rhythm at all, and only single windows are called.
        Assert.All([0.3, 0.5], severity => Assert.True(Closed(severity).Strike, $"severity {severity}: score {Closed(severity).StrikeScore}"));
        Assert.True(Closed(0.7).StrikeScoreMedian > 0.5, $"{Closed(0.7).StrikeScoreMedian}");
        var loose = Shown(Healthy with { Sensors = [], Faults = [new("sensor-loose", 1)] });
        Assert.True(loose.Levels!.Noise > 10 * Well.Value.Levels!.Noise, $"{loose.Levels.Noise}");
        Assert.Equal(1, Shown(Healthy with { Sensors = [], Faults = [new("sensor-dead", 1)] }).SilentShare);
        var cut = Shown(Healthy with { Sensors = [], Faults = [new("sensor-clipped", 0.5)] });
        Assert.True(cut.ClippedShare > 0.01, $"{cut}");
    }

    [Fact]
    public void A_dead_drive_halves_the_pull_and_tilts_the_motion_and_drives_out_of_phase_part_the_ends()
    {
        var dead = Shown(Healthy with { Faults = [new("drive-dead", 1)] });
        Assert.Equal(0.5, dead.Stroke!.Value / Well.Value.Stroke!.Value, 0.02);
        Assert.True(dead.FrontRear < -0.4);
        var apart = Shown(Healthy with { Faults = [new("drive-out-of-phase", 0.5)] });
        Assert.Equal(Math.Cos(Math.PI / 6), apart.Stroke!.Value / Well.Value.Stroke.Value, 0.01);
        Assert.Equal(2 * Math.Atan(0.5 * Math.Tan(Math.PI / 6)) * 180 / Math.PI, apart.FrontRearPhaseDegrees!.Value, 1.0);
    }

    private static FeederScenario Short => Runs.Clean with
    {
        DurationSeconds = 0.9,
        InternalHz = 20_000,
        Sensors = [new(SensorPlace.Front), new(SensorPlace.Rear)],
        Feeder = Runs.Clean.Feeder with { RestGapMetres = 1.6e-3 },
    };

    private static SimulationTruth Truth(SimulatedFault? fault) => Runs.Of(Short with { DurationSeconds = 0.1, Faults = fault is null ? [] : [fault] }).Truth;

    private static CaptureFeatures Shown(FeederScenario scenario)
    {
        using var source = new SimulatedFeederSource(scenario);
        var feeder = scenario.Feeder with { Sensors = [.. scenario.Sensors.Select(place => new StrokeWatch.Machine.Feeder.PlacedSensor(place.Place, [], new()))] };
        return Replayer.Run("simulated", source, feeder, new AlarmDelays()).Features;
    }
}
