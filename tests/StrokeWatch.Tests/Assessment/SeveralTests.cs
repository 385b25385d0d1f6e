using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Findings;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Assessment;

public sealed class SeveralTests
{
    private static readonly FeederDescription Feeder = new()
    {
        Name = "Cullet feeder",
        Drive = new(50, 1, false),
        Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90)),
    };

    /// <summary>Own 1 % and 0.5 %, shared 0.04 %.</summary>
    private static readonly StrokeContributions Known = new(
        [
            new(StrokeContributions.Sensitivity, 0.01, double.PositiveInfinity, "given"),
            new(StrokeContributions.Alignment, 0.005, double.PositiveInfinity, "given"),
            new(StrokeContributions.Frequency, 0.0004, double.PositiveInfinity, "given"),
        ],
        sensitivityAssumed: false);

    [Fact]
    public void Front_against_rear_is_the_difference_and_its_uncertainty_that_of_two_independent_sensors()
    {
        var spread = Report((SensorPlace.Front, 1.80e-3), (SensorPlace.Rear, 1.50e-3)).Sensors!.FrontRear;
        Assert.Equal((1.80e-3, 1.50e-3), (spread.First!.Value, spread.Second!.Value));
        Assert.Equal(0.30e-3, spread.Difference!.Value, 1e-12);
        Assert.Equal(0.30 / 1.65, spread.Relative!.Value, 1e-9);

        // GUM, equation 10: own contributions in quadrature, the shared one on the difference alone; the windows have no noise here.
        var own = Math.Sqrt(0.01 * 0.01 + 0.005 * 0.005);
        var wanted = 2 * Math.Sqrt(Math.Pow(own * 1.80e-3, 2) + Math.Pow(own * 1.50e-3, 2) + Math.Pow(0.0004 * 0.30e-3, 2));
        Assert.Equal(wanted, spread.Uncertainty!.Value, 1e-9 * wanted);
        Assert.Equal("sensors at left and right are not both listed", Report((SensorPlace.Front, 1.80e-3)).Sensors!.LeftRight.Reason);
    }

    [Fact]
    public void Corners_are_compared_in_whole_pairs()
    {
        var sensors = Report((SensorPlace.FrontLeft, 1.80e-3), (SensorPlace.FrontRight, 1.60e-3), (SensorPlace.RearLeft, 1.70e-3), (SensorPlace.RearRight, 1.54e-3)).Sensors!;
        Assert.Equal(0.08e-3, sensors.FrontRear.Difference!.Value, 1e-12);
        Assert.Equal(0.18e-3, sensors.LeftRight.Difference!.Value, 1e-12);

        // A corner without its counterpart would bring the other direction's difference in.
        var three = Report((SensorPlace.FrontLeft, 1.80e-3), (SensorPlace.FrontRight, 1.60e-3), (SensorPlace.RearLeft, 1.70e-3)).Sensors!;
        Assert.Equal(0.10e-3, three.FrontRear.Difference!.Value, 1e-12);
        Assert.Equal(0.20e-3, three.LeftRight.Difference!.Value, 1e-12);
        var two = Report((SensorPlace.Front, 1.80e-3), (SensorPlace.RearLeft, 1.70e-3)).Sensors!;
        Assert.Equal(0.10e-3, two.FrontRear.Difference!.Value, 1e-12);
    }

    [Fact]
    public void Over_stroke_is_judged_on_the_largest_and_the_band_on_the_mean()
    {
        var report = Report((SensorPlace.Front, 1.95e-3), (SensorPlace.Rear, 1.55e-3));
        Assert.Equal(Verdict.OverStroke, report.Stroke.Verdict);
        Assert.Equal(1.75e-3, report.Stroke.Stroke!.Value, 1e-12);
        Assert.Contains("1.950 mm (0.0768 in)", report.Stroke.Reason, StringComparison.Ordinal);
        var raised = Assert.Single(report.Transitions);
        Assert.Equal(AlarmKind.OverStroke, raised.Kind);
        Assert.Contains("OVER-STROKE: 1.950 mm (0.0768 in) at the sensor front, limit 1.900 mm", raised.Words, StringComparison.Ordinal);
        Assert.Contains("1.950 mm", Rules.Look(report).Single(finding => finding.Id == "over-stroke").Because[0], StringComparison.Ordinal);
        Assert.Equal(Verdict.InBand, Report((SensorPlace.Front, 1.80e-3), (SensorPlace.Rear, 1.60e-3)).Stroke.Verdict);
    }

    [Theory]
    [InlineData(1.80, 1.62, true)]
    [InlineData(1.80, 1.64, false)]
    [InlineData(1.62, 1.80, true)]
    public void An_uneven_stroke_is_found_beyond_a_tenth_and_the_safe_check_comes_first(double front, double rear, bool found)
    {
        var finding = Rules.Look(Report((SensorPlace.Front, front * 1e-3), (SensorPlace.Rear, rear * 1e-3))).SingleOrDefault(finding => finding.Id == "uneven-stroke");
        Assert.Equal(found, finding is not null);
        if (finding is not null)
        {
            Assert.StartsWith("Stop the feeder, isolate it and lock it out", finding.CheckFirst[0], StringComparison.Ordinal);
            Assert.Contains("0.180 mm (0.0071 in)", finding.Because[0], StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_difference_within_its_uncertainty_is_no_finding()
    {
        var unknown = new StrokeContributions([new(StrokeContributions.Sensitivity, 0.08, double.PositiveInfinity, "given")], sensitivityAssumed: false);
        var report = Report(unknown, 4, (SensorPlace.Front, 1.80e-3), (SensorPlace.Rear, 1.50e-3));
        Assert.True(report.Sensors!.FrontRear.Difference < report.Sensors.FrontRear.Uncertainty);
        Assert.DoesNotContain(Rules.Look(report), finding => finding.Id == "uneven-stroke");
    }

    [Fact]
    public void A_sensor_that_fails_is_alarmed_by_name_though_the_stroke_is_known()
    {
        var book = new AlarmBook(Feeder.Band, new());
        var heard = new List<AlarmTransition>();
        for (var i = 0; i < 60; i++)
        {
            book.Take(Tray(i, 1.70e-3, 1.70e-3) with { FailingPlace = SensorPlace.RearLeft }, Verdict.InBand, heard.Add);
        }

        Assert.Equal(AlarmKind.Unmeasurable, Assert.Single(heard).Kind);
        Assert.Contains("Sensor rear-left gives no stroke though another does", heard[0].Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sensor_at_its_rail_beside_a_good_one_is_alarmed_and_may_show_over_stroke()
    {
        var assessor = new FeederAssessor(Feeder, new());
        var heard = new List<AlarmTransition>();
        var verdict = Verdict.InBand;
        for (var i = 0; i < 20; i++)
        {
            verdict = assessor.Take(Tray(i, 1.70e-3, 1.70e-3) with { ClippedSamples = 40, AtLeastMetres = 2.0e-3 }, heard.Add);
        }

        Assert.Equal(Verdict.OverStroke, verdict);
        Assert.Contains(heard, alarm => alarm.Kind == AlarmKind.SensorClipped && alarm.Words.StartsWith("One of several sensors at its rail", StringComparison.Ordinal));
        Assert.Contains(heard, alarm => alarm.Kind == AlarmKind.OverStroke && alarm.Words.Contains("at least 2.000 mm", StringComparison.Ordinal));
    }

    [Fact]
    public void Over_stroke_of_the_largest_clears_by_the_deadband_of_the_largest()
    {
        var judge = new BandJudge(Feeder.Band, Length.FromMillimetres(0.02));
        Assert.Equal(Verdict.OverStroke, judge.Next(1.70e-3, 0, 1.91e-3));
        Assert.Equal(Verdict.OverStroke, judge.Next(1.60e-3, 0, 1.89e-3));
        Assert.Equal(Verdict.Low, judge.Next(1.60e-3, 0, 1.87e-3));
    }

    [Fact]
    public void The_budget_of_a_mean_holds_own_contributions_over_the_root_of_two_and_shared_ones_whole()
    {
        var two = StationContributions.OfMean([Known, Known]);
        double Of(string name) => two.Items.Single(item => item.Name == name).Relative;
        Assert.Equal(0.01 / Math.Sqrt(2), Of(StrokeContributions.Sensitivity), 1e-15);
        Assert.Equal(0.005 / Math.Sqrt(2), Of(StrokeContributions.Alignment), 1e-15);
        Assert.Equal(0.0004, Of(StrokeContributions.Frequency), 1e-15);
        Assert.Same(Known, StationContributions.OfMean([Known]));
    }

    private static AssessmentReport Report(params (SensorPlace Place, double Stroke)[] sensors) => Report(Known, 4, sensors);

    private static AssessmentReport Report(StrokeContributions contributions, int windows, params (SensorPlace Place, double Stroke)[] sensors)
    {
        var builder = new ReportBuilder(Feeder);
        var assessor = new FeederAssessor(Feeder, new());
        for (var i = 0; i < windows; i++)
        {
            builder.Add(new SeveralReading(
                sensors.Select(sensor => new StationReading { Place = sensor.Place, Reading = Tray(i, sensor.Stroke, null), PhaseRadians = 0, PhaseNoiseRadians = 0 }).ToArray(),
                new(null, null, "no sensor on the body is listed")));
            var largest = sensors.MaxBy(sensor => sensor.Stroke);
            var window = Tray(i, sensors.Average(sensor => sensor.Stroke), largest.Stroke) with { LargestPlace = largest.Place };
            builder.Add(new AssessedWindow(window, assessor.Take(window, transition => builder.Add(transition))));
        }

        return builder.Build(contributions, [.. sensors.Select((sensor, i) => new StationSettings(sensor.Place, 3 * i, 3, null, contributions))]);
    }

    private static WindowReading Tray(int window, double stroke, double? largest) => new()
    {
        StartSeconds = 0.5 * window,
        LengthSeconds = 0.5,
        Quality = WindowQuality.Good,
        Motion = MotionState.Running,
        StrokeMetres = stroke,
        FundamentalMetres = stroke,
        NoiseMetres = 0,
        LargestMetres = largest,
        LargestPlace = largest is null ? null : SensorPlace.Front,
        FrequencyHz = 50,
    };
}
