using System.Globalization;
using System.Text;
using FsCheck.Xunit;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Tests.Measurement;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>
/// What must not change a stroke, from a capture's text through the whole replay, with noise, harmonics, an ellipse and gravity there: FsCheck chooses the cases from a
/// fixed seed, and prints the case that fails.
/// </summary>
public sealed class InvarianceTests
{
    private const double Rate = 1600;
    private const int Samples = 3200;
    private const string Seed = "(20260315,7)";

    [Property(MaxTest = 15, Replay = Seed)]
    public void Turning_the_sensor_in_space_leaves_stroke_and_drive_angle(int seed)
    {
        var feeder = new Case(seed);
        var turn = Rotation.Any(new Random(seed));
        var (straight, turned) = (Replay(feeder.Rows()), Replay(feeder.Rows().Select(turn.Turn)));
        Same(straight, turned, 1e-8);
        Assert.Equal(straight.Mounting!.DriveDegrees!.Value, turned.Mounting!.DriveDegrees!.Value, 1e-4);
        Assert.Equal(straight.Stroke.EllipseRatio!.Value, turned.Stroke.EllipseRatio!.Value, 1e-7);
    }

    [Property(MaxTest = 15, Replay = Seed)]
    public void Starting_at_any_phase_leaves_the_stroke_within_its_noise(int seed, double shift)
    {
        var later = double.IsFinite(shift) ? Math.Abs(shift) % 1 : 0.5;
        var feeder = new Case(seed);
        var (now, then) = (Replay(feeder.Rows()), Replay((feeder with { Shift = later }).Rows()));
        Same(now, then, 6 * feeder.Noise * Math.Sqrt(2.0 / Samples) / feeder.Amplitude + 1e-5);
    }

    [Property(MaxTest = 15, Replay = Seed)]
    public void Writing_the_columns_in_another_order_leaves_everything(int seed)
    {
        var feeder = new Case(seed);
        var (straight, crossed) = (Replay(feeder.Rows()), Replay(feeder.Rows(), order: [2, 0, 1]));
        Same(straight, crossed, 1e-9);
        Assert.Equal(straight.Stroke.LineAngleDegrees!.Value, crossed.Stroke.LineAngleDegrees!.Value, 1e-7);
    }

    [Property(MaxTest = 10, Replay = Seed)]
    public void Writing_the_samples_in_another_unit_leaves_the_stroke(int seed)
    {
        var feeder = new Case(seed);
        var metres = Replay(feeder.Rows());
        Same(metres, Replay(feeder.Rows(), unit: "mm_s2"), 1e-8);
        Same(metres, Replay(feeder.Rows(), unit: "g"), 1e-8);
    }

    [Property(MaxTest = 15, Replay = Seed)]
    public void The_stroke_grows_in_proportion_with_the_acceleration(int seed, double factor)
    {
        var scale = 0.5 + (double.IsFinite(factor) ? Math.Abs(factor) % 1.5 : 0.7);
        var feeder = new Case(seed);
        var (one, other) = (Replay(feeder.Rows()), Replay(feeder.Rows().Select(row => row.Select(value => scale * value).ToArray())));
        Assert.Equal(scale, other.Stroke.Stroke!.Value / one.Stroke.Stroke!.Value, 1e-8);
        Assert.Equal(scale, other.Stroke.Fundamental!.Value / one.Stroke.Fundamental!.Value, 1e-8);
    }

    [Property(MaxTest = 15, Replay = Seed)]
    public void A_larger_motion_reads_as_a_larger_stroke(int seed, double more)
    {
        // A difference ten times the noise of a reading, or more.
        var feeder = new Case(seed);
        var least = 10 * feeder.Noise * Math.Sqrt(2.0 / Samples) / feeder.Amplitude;
        var larger = feeder with { Growth = 1 + least + (double.IsFinite(more) ? Math.Abs(more) % 0.3 : 0.1), NoiseSeed = seed + 1 };
        Assert.True(Replay(larger.Rows()).Stroke.Stroke > Replay(feeder.Rows()).Stroke.Stroke);
    }

    private static void Same(AssessmentReport one, AssessmentReport other, double relative)
    {
        Assert.Equal(one.Windows.Count, other.Windows.Count);
        Assert.Equal(1, other.Stroke.Stroke!.Value / one.Stroke.Stroke!.Value, relative);
        Assert.Equal(1, other.Stroke.Fundamental!.Value / one.Stroke.Fundamental!.Value, relative);
        Assert.Equal(one.Stroke.Verdict, other.Stroke.Verdict);
    }

    private static AssessmentReport Replay(IEnumerable<double[]> rows, string unit = "m_s2", int[]? order = null)
    {
        var (factor, columns) = (unit switch { "g" => Gravity.Standard, "mm_s2" => 1e-3, _ => 1 }, order ?? [0, 1, 2]);
        var text = new StringBuilder("t_s");
        foreach (var column in columns)
        {
            text.Append(',').Append("xyz"[column]).Append('_').Append(unit);
        }

        var n = 0;
        foreach (var row in rows)
        {
            text.Append('\n').Append((n++ / Rate).ToString("R", CultureInfo.InvariantCulture));
            foreach (var column in columns)
            {
                text.Append(',').Append((row[column] / factor).ToString("R", CultureInfo.InvariantCulture));
            }
        }

        var bytes = Encoding.UTF8.GetBytes(text.Append('\n').ToString());
        using var source = CaptureFile.Open(new CaptureBytes("sand.csv", () => new MemoryStream(bytes, writable: false)), new());
        var description = new FeederDescription
        {
            Name = "Sand feeder",
            Drive = new(50, 1, Free: false),
            Band = new(Length.FromMillimetres(0.1), Length.FromMillimetres(9), Length.FromMillimetres(10)),
        };
        return Replayer.Run("sand.csv", source, description, new AlarmDelays()).Report;
    }

    /// <summary>A feeder drawn from a seed: stroke, line, ellipse, two harmonics, the sensor's clock and noise.</summary>
    private sealed record Case
    {
        private readonly double degrees, ellipse, second, third, turn, clock;

        public Case(int seed)
        {
            var random = new Random(seed);
            double Draw(double low, double high) => low + (high - low) * random.NextDouble();
            Amplitude = Sinusoid.PeakAcceleration(Length.FromMillimetres(Draw(0.6, 3)), 50);
            (degrees, ellipse, second, third) = (Draw(5, 60), Draw(0, 0.3), Draw(0, 0.2), Draw(0, 0.1));
            (turn, clock, Noise) = (Draw(0, 2 * Math.PI), Draw(-0.01, 0.01), Draw(0, 0.01) * Amplitude);
            NoiseSeed = seed;
        }

        public double Amplitude { get; }

        public double Noise { get; }

        public double Growth { get; init; } = 1;

        public double Shift { get; init; }

        public int NoiseSeed { get; init; }

        public IEnumerable<double[]> Rows()
        {
            var random = new Random(NoiseSeed);
            var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
            for (var n = 0; n < Samples; n++)
            {
                var phase = 2 * Math.PI * (50 * n / (Rate * (1 + clock)) + Shift);
                var along = Growth * Amplitude * (Math.Cos(phase) + second * Math.Cos(2 * phase + turn) + third * Math.Cos(3 * phase - turn));
                var across = Growth * Amplitude * ellipse * Math.Sin(phase);
                yield return
                [
                    cos * along - sin * across + Noise * Signal.Gauss(random),
                    0.3 * across + Noise * Signal.Gauss(random),
                    sin * along + cos * across + Gravity.Standard + Noise * Signal.Gauss(random),
                ];
            }
        }
    }
}
