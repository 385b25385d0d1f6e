using StrokeWatch.Assessment.Findings;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Orientation;

/// <summary>Gravity, line of action and ellipse of seeded signals that are known in closed form, with the sensor turned in any way.</summary>
public sealed class OrientationTests
{
    private static readonly StrokeContributions Exact = StrokeContributions.None;

    [Theory]
    [InlineData(0)]
    [InlineData(12)]
    [InlineData(75)]
    [InlineData(180)]
    public void The_tilt_is_that_of_the_sensor_and_the_drive_angle_that_of_the_feeder(double tilt)
    {
        var mounting = Mounting(Rotation.About(tilt, 0, 1, 0), 25);
        Assert.Equal(tilt, mounting.TiltDegrees!.Value, 0.05);
        Assert.Equal(25, mounting.DriveDegrees!.Value, 0.05);
        Assert.Equal(Gravity.Standard, mounting.Gravity!.Value.Norm, 0.01);
        Assert.Null(mounting.Reason);
    }

    [Fact]
    public void A_sensor_turned_in_any_way_tells_the_same_drive_angle_stroke_and_ellipse()
    {
        var random = new Random(51);
        for (var i = 0; i < 12; i++)
        {
            var turn = Rotation.Any(random);
            var mounting = Mounting(turn, 22, ellipse: 0.2);
            Assert.Equal(22, mounting.DriveDegrees!.Value, 0.1);
            Assert.Equal(1.5e-3, mounting.MajorMetres!.Value, 1e-6);
            Assert.Equal(0.3e-3, mounting.MinorMetres!.Value, 1e-6);
            var (sin, cos) = Math.SinCos(22 * Math.PI / 180);
            Assert.Equal(1, Math.Abs(mounting.Line!.Value.Dot(turn.Turn(new Triple(cos, 0, sin)))), 5);

            // The ellipse lies in the x-z plane: its normal is y.
            Assert.Equal(1, Math.Abs(mounting.Normal!.Value.Dot(turn.Turn(new Triple(0, 1, 0)))), 5);
        }
    }

    [Fact]
    public void A_line_has_no_plane_where_noise_hides_the_minor_axis() => Assert.Null(Mounting(Rotation.About(0, 0, 0, 1), 25).Normal);

    // First-order perturbation of an eigenvector: σ√(a² + b²)/(a² − b²), derived; σ of an amplitude is the noise times √(2/N).
    [Theory]
    [InlineData(0)]
    [InlineData(0.3)]
    public void The_lines_stated_deviation_is_what_it_scatters_by(double ellipse)
    {
        const int Runs = 300;
        var (angles, stated) = (new double[Runs], 0.0);
        for (var run = 0; run < Runs; run++)
        {
            var reading = Reading(Rotation.About(0, 0, 0, 1), 25, ellipse, noise: 4, seconds: 0.56, seed: 100 + run);
            var line = reading.Line!.Value;
            angles[run] = Math.Atan2(line.Z, line.X);
            stated += reading.LineDeviation / Runs;
        }

        var mean = angles.Average();
        var spread = Math.Sqrt(angles.Sum(angle => (angle - mean) * (angle - mean)) / (Runs - 1));
        Assert.InRange(stated / spread, 0.85, 1.15);
        Assert.Equal(25 * Math.PI / 180, mean, 4 * spread / Math.Sqrt(Runs));
    }

    [Fact]
    public void Nothing_is_told_of_gravity_where_the_mean_is_not_gravity()
    {
        var mounting = Mounting(Rotation.About(0, 0, 0, 1), 25, offset: -Gravity.Standard);
        Assert.Null(mounting.TiltDegrees);
        Assert.Null(mounting.DriveDegrees);
        Assert.Contains("is not gravity", mounting.Reason, StringComparison.Ordinal);
        Assert.Equal(25, mounting.LineDegrees!.Value, 0.05);
    }

    [Fact]
    public void A_still_tray_tells_the_tilt_and_no_line()
    {
        var meter = new StrokeMeter(StrokeMeterTests.Settings(60, 3200));
        foreach (var block in Signal.Blocks(Signal.Feeder(2e-6, 60, 20, 0.3, 5), 3200, 3))
        {
            meter.Add(block, new Signal());
        }

        var mounting = MountingReader.Of(meter.Orientation!.Read(), Feeder(null), Exact, 3);
        Assert.Equal(0, mounting.TiltDegrees!.Value, 0.2);
        Assert.Null(mounting.Line);
        Assert.Equal("the tray never ran steadily", mounting.Reason);
    }

    [Fact]
    public void One_axis_tells_no_direction_and_says_so()
    {
        var mounting = MountingReader.Of(new OrientationTally([Axis.Z]).Read(), Feeder(null), Exact, 1);
        Assert.Null(mounting.LineUncertaintyDegrees);
        Assert.Equal("one axis alone tells no direction", mounting.Reason);
    }

    [Fact]
    public void An_offset_not_calibrated_away_widens_the_tilt()
    {
        // 0.05 g, rectangular, k = 2: 2·0.05/√3 rad.
        var mounting = Mounting(Rotation.About(0, 0, 0, 1), 25);
        Assert.Equal(2 * 0.05 / Math.Sqrt(3) * 180 / Math.PI, mounting.TiltUncertaintyDegrees!.Value, 6);
        Assert.True(mounting.DriveUncertaintyDegrees >= mounting.TiltUncertaintyDegrees);
    }

    [Theory]
    [InlineData(0, 0, null, false)]
    [InlineData(4, 0, null, false)]
    [InlineData(9, 0, null, true)]
    [InlineData(90, 0, null, true)]
    [InlineData(0, 0, 25.0, false)]
    [InlineData(0, 0, 27.0, false)]
    [InlineData(0, 0, 31.0, true)]
    [InlineData(0, 10, 25.0, true)]
    public void A_sensor_askew_is_found_beyond_its_uncertainty(double yaw, double pitch, double? given, bool found)
    {
        var turn = pitch == 0 ? Rotation.About(yaw, 0, 0, 1) : Rotation.About(pitch, 0, 1, 0);
        var mounting = Mounting(turn, 25, given: given);
        var report = new AssessmentReport
        {
            Feeder = Feeder(given),
            Windows = [],
            Decays = [],
            Transitions = [],
            Stroke = new(null, null, null, null, null, null, null, Verdict.Unmeasurable, null),
            Strike = new(false, null, 0, null, null, 0, 0),
            Mounting = mounting,
        };
        var finding = Rules.Look(report).SingleOrDefault(one => one.Id == "sensor-askew");
        Assert.Equal(found, finding is not null);
        Assert.All(finding?.Because ?? [], because => Assert.Contains("°", because, StringComparison.Ordinal));
    }

    private static MountingSummary Mounting(Rotation turn, double degrees, double ellipse = 0, double offset = 0, double? given = null) =>
        MountingReader.Of(Reading(turn, degrees, ellipse, 0.2, 3, 52, offset, given), Feeder(given), Exact, 3);

    private static FeederDescription Feeder(double? given) => new()
    {
        Name = "Cullet feeder",
        Drive = new(60, 1, Free: false),
        Band = new(Length.FromMillimetres(1.4), Length.FromMillimetres(1.6), Length.FromMillimetres(1.8)),
        LineAngleDegrees = given,
    };

    /// <summary>Measures 1.5 mm along a line above the horizontal x axis, with an ellipse in the x-z plane, seen by a sensor that is turned.</summary>
    private static OrientationReading Reading(
        Rotation turn, double degrees, double ellipse, double noise, double seconds, int seed, double offset = 0, double? given = null)
    {
        var random = new Random(seed);
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMillimetres(1.5), 60);
        double[] At(double t)
        {
            var (quadrature, along) = Math.SinCos(2 * Math.PI * 60 * t + 0.7);
            var (a, b) = (amplitude * along, amplitude * ellipse * quadrature);
            return turn.Turn(
            [
                cos * a - sin * b + noise * Signal.Gauss(random),
                noise * Signal.Gauss(random),
                sin * a + cos * b + Gravity.Standard + offset + noise * Signal.Gauss(random),
            ]);
        }

        var meter = new StrokeMeter(StrokeMeterTests.Settings(60, 3200) with { LineAngleDegrees = given });
        var sink = new Signal();
        foreach (var block in Signal.Blocks(At, 3200, seconds))
        {
            meter.Add(block, sink);
        }

        return meter.Orientation!.Read();
    }
}
