using StrokeWatch.Measurement;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;
using Source = StrokeWatch.Tests.Measurement.Stations.Several.Source;

namespace StrokeWatch.Tests.Measurement.Stations;

public sealed class StationTests
{
    private static readonly Source Front = new(SensorPlace.Front, 1.8e-3, 3, [(2, 0.03, 40), (3, 0.01, -70)]);
    private static readonly Source Rear = new(SensorPlace.Rear, 1.62e-3, -4, [(2, 0.02, 10)]);
    private static readonly Source Body = new(SensorPlace.Body, 0.85e-3, 178, [(2, 0.05, -20), (4, 0.004, 15)]);

    [Theory]
    [InlineData(50, 0)]
    [InlineData(49.97, 0.004)]
    [InlineData(50.02, -0.02)]
    public void Stroke_and_phase_of_each_are_right_within_a_thousandth_and_a_tenth_of_a_degree(double hertz, double clock)
    {
        var several = Several.Measure([Front, Rear, Body], hertz: hertz, clock: clock);
        Assert.True(several.Windows.Count >= 5);

        // Locked to the mains: the mains' own offset counts twice in each stroke, and not at all in a phase.
        var mains = Math.Pow(hertz / Several.Drive, 2);
        foreach (var (window, sensors, _) in several.Windows)
        {
            Assert.Equal(WindowQuality.Good, window.Quality);
            Assert.Equal(Front.PeakToPeak * mains, sensors[0].Reading.StrokeMetres!.Value, 1e-3 * Front.PeakToPeak);
            Assert.Equal(Rear.PeakToPeak * mains, sensors[1].Reading.StrokeMetres!.Value, 1e-3 * Rear.PeakToPeak);
            Assert.Equal(Body.PeakToPeak * mains, sensors[2].Reading.StrokeMetres!.Value, 1e-3 * Body.PeakToPeak);
            Assert.Equal(0.5 * (Front.PeakToPeak + Rear.PeakToPeak) * mains, window.StrokeMetres!.Value, 1e-3 * Front.PeakToPeak);
            Assert.Equal((SensorPlace.Front, null), (window.LargestPlace, window.FailingPlace));
            Assert.Equal(sensors[0].Reading.StrokeMetres, window.LargestMetres);
        }

        Assert.Equal(-7, several.PhaseDegrees(1, 0), 0.1);
        Assert.Equal(175, several.PhaseDegrees(2, 0), 0.1);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void A_tray_that_rocks_is_told_whatever_its_strokes_and_phases(int seed)
    {
        var random = new Random(seed);
        Source[] sources = [.. new[] { SensorPlace.FrontLeft, SensorPlace.FrontRight, SensorPlace.RearLeft, SensorPlace.RearRight, SensorPlace.Body }.Select(place => new Source(
            place, (1 + random.NextDouble()) * 1e-3, 60 * random.NextDouble() - 30, [(2, 0.04 * random.NextDouble(), 360 * random.NextDouble())]))];
        var several = Several.Measure(sources, 2, seed);
        for (var i = 0; i < sources.Length; i++)
        {
            var stroke = several.Windows.Average(window => window.Sensors[i].Reading.StrokeMetres!.Value);
            Assert.True(Math.Abs(stroke / sources[i].PeakToPeak - 1) < 1e-3, $"seed {seed}, {sources[i].Place}: {stroke}, truth {sources[i].PeakToPeak}");
            var phase = several.PhaseDegrees(i, 0) - sources[i].PhaseDegrees + sources[0].PhaseDegrees;
            Assert.True(Math.Abs(phase) < 0.1, $"seed {seed}, {sources[i].Place}: {phase}° off");
        }
    }

    [Fact]
    public void The_tray_against_the_body_is_the_extent_of_the_difference_of_the_two_motions()
    {
        var truth = Several.Extent(phase => 0.5 * (Front.Displacement(phase) + Rear.Displacement(phase)) - Body.Displacement(phase));
        foreach (var (_, sensors, relative) in Several.Measure([Front, Rear, Body]).Windows)
        {
            Assert.Equal(truth, relative.Metres!.Value, 1e-3 * truth);
            Assert.Null(relative.Reason);

            // The parts add up to the fundamental's difference, which the law of cosines gives from strokes and phases.
            var whole = sensors.Sum(sensor => sensor.RelativePartMetres!.Value);
            Assert.Equal(Several.Extent(phase => 0.5 * (Fundamental(Front, phase) + Fundamental(Rear, phase)) - Fundamental(Body, phase)), whole, 1e-3 * whole);
        }

        static double Fundamental(Source source, double phase) => (source with { Orders = [] }).Displacement(phase);
    }

    [Fact]
    public void A_body_that_moves_as_the_tray_does_leaves_nothing_between_them()
    {
        var several = Several.Measure([Front, Front with { Place = SensorPlace.Body }]);
        Assert.All(several.Windows, window => Assert.InRange(window.Relative.Metres!.Value, 0, 5 * window.Relative.NoiseMetres!.Value));
    }

    [Fact]
    public void A_sensor_mounted_the_other_way_round_shows_as_phase_and_not_as_stroke()
    {
        var several = Several.Measure([Front, Rear with { Stroke = 1.8e-3, PhaseDegrees = 3, Orders = Front.Orders, Sign = -1 }, Body]);
        Assert.Equal(180, Math.Abs(several.PhaseDegrees(1, 0)), 0.1);
        Assert.All(several.Windows, window =>
        {
            Assert.Equal(window.Sensors[0].Reading.StrokeMetres!.Value, window.Sensors[1].Reading.StrokeMetres!.Value, 2e-3 * Front.Stroke);
            Assert.Equal(Front.PeakToPeak, window.Window.StrokeMetres!.Value, 1e-3 * Front.Stroke);

            // Its axes are not parallel to the first one's, so that it does not enter the difference.
            Assert.Null(window.Sensors[1].RelativePartMetres);
            Assert.Equal(Several.Extent(phase => Front.Displacement(phase) - Body.Displacement(phase)), window.Relative.Metres!.Value, 2e-6);
        });
    }

    [Fact]
    public void Seven_channels_of_sensors_with_few_axes_are_measured_along_a_given_line()
    {
        Source[] sources = [Front, Rear with { Axes = [Axis.X, Axis.Z] }, Body with { Axes = [Axis.X] }, Rear with { Place = SensorPlace.Left, Axes = [Axis.Z] }];
        var several = Several.Measure(sources, change: settings => settings with { LineAngleDegrees = Several.LineDegrees });
        Assert.Equal(7, Several.Settings(sources).Axes.Count);
        Assert.All(several.Windows, window =>
        {
            for (var i = 0; i < sources.Length; i++)
            {
                Assert.Equal(sources[i].PeakToPeak, window.Sensors[i].Reading.StrokeMetres!.Value, 2e-3 * sources[i].PeakToPeak);
            }

            Assert.NotNull(window.Relative.Metres);
        });
        Assert.Equal(175, several.PhaseDegrees(2, 0), 0.1);
        Assert.Equal(-7, several.PhaseDegrees(3, 0), 0.2);
    }

    [Fact]
    public void A_free_drive_is_compared_at_one_frequency_for_all()
    {
        var several = Several.Measure([Front, Rear, Body], hertz: 43.7, change: settings => settings with { FreeDrive = true });
        Assert.Equal(-7, several.PhaseDegrees(1, 0), 0.1);
        Assert.All(several.Windows.Skip(1), window =>
        {
            Assert.All(window.Sensors, sensor => Assert.Equal(window.Window.FrequencyHz, sensor.Reading.FrequencyHz));
            Assert.Equal(Rear.PeakToPeak, window.Sensors[1].Reading.StrokeMetres!.Value, 2e-3 * Rear.PeakToPeak);
        });
    }

    [Fact]
    public void The_noise_of_phase_and_difference_is_what_they_scatter_by()
    {
        List<double> phases = [], extents = [];
        double phaseNoise = 0, extentNoise = 0;
        for (var seed = 0; seed < 12; seed++)
        {
            foreach (var (_, sensors, relative) in Several.Measure([Front with { Noise = 1.5 }, Body with { Noise = 1.5 }], 5, 100 + seed, change: Stated).Windows)
            {
                phases.Add(Math.IEEERemainder(sensors[1].PhaseRadians!.Value - sensors[0].PhaseRadians!.Value, 2 * Math.PI));
                extents.Add(relative.Metres!.Value);
                phaseNoise += Math.Pow(sensors[0].PhaseNoiseRadians!.Value, 2) + Math.Pow(sensors[1].PhaseNoiseRadians!.Value, 2);
                extentNoise += Math.Pow(relative.NoiseMetres!.Value, 2);
            }
        }

        Assert.True(phases.Count > 100);
        Assert.InRange(Deviation(phases) / Math.Sqrt(phaseNoise / phases.Count), 0.85, 1.15);
        Assert.InRange(Deviation(extents) / Math.Sqrt(extentNoise / extents.Count), 0.8, 1.2);

        // In such noise the body's top is as flat as a cut one: the range tells that it is not.
        static MeterSettings Stated(MeterSettings settings) => settings with { Stations = [.. settings.Stations.Select(station => station with { FullScale = 40 * Gravity.Standard })] };

        static double Deviation(List<double> values) => Math.Sqrt(values.Sum(value => Math.Pow(value - values.Average(), 2)) / (values.Count - 1));
    }

    [Fact]
    public void Nothing_is_allocated_a_window()
    {
        Source[] sources = [Front, Rear, Body];
        var blocks = Several.Blocks(sources, 6, 1);
        var meter = new StrokeMeter(Several.Settings(sources));
        var sink = new Counting();
        for (var i = 0; i < 16; i++)
        {
            meter.Add(blocks[i], sink);
        }

        // A collection that another test causes hands this thread's unused share of the heap back and counts it: what a window allocates shows in every stretch.
        var least = long.MaxValue;
        for (var i = 16; i + 8 <= blocks.Count; i += 8)
        {
            var (before, windows) = (GC.GetAllocatedBytesForCurrentThread(), sink.Windows);
            for (var j = i; j < i + 8; j++)
            {
                meter.Add(blocks[j], sink);
            }

            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
            Assert.True(sink.Windows > windows);
        }

        Assert.Equal(0, least);
    }

    private sealed class Counting : IWindowSink
    {
        public int Windows { get; private set; }

        public void Window(in WindowReading reading) => Windows++;

        public void Decay(in DecayReading reading)
        {
        }
    }
}
