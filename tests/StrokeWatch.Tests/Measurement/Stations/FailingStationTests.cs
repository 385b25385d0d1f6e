using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;
using Source = StrokeWatch.Tests.Measurement.Stations.Several.Source;

namespace StrokeWatch.Tests.Measurement.Stations;

public sealed class FailingStationTests
{
    private static readonly Source Front = new(SensorPlace.Front, 1.75e-3, 0, []);
    private static readonly Source Rear = new(SensorPlace.Rear, 1.70e-3, -5, []);
    private static readonly Source Body = new(SensorPlace.Body, 0.85e-3, 178, []);

    /// <summary>A dead sensor says the same number for ever.</summary>
    private static Source Dead(Source source) => source with { Read = (_, _, _) => 3.25 };

    /// <summary>A sensor whose cable is off hears only noise.</summary>
    private static Source Unplugged(Source source) => source with { Stroke = 1e-9 };

    private static Source Clipped(Source source, double rail) => source with { Read = (_, _, value) => Math.Clamp(value, -rail, rail), FullScale = rail };

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Where_the_first_sensor_is_gone_the_next_one_leads_and_the_failing_one_is_named(bool dead)
    {
        var several = Several.Measure([dead ? Dead(Front) : Unplugged(Front), Rear, Body]);
        Assert.All(several.Windows, window =>
        {
            Assert.Equal((WindowQuality.Good, SensorPlace.Front), (window.Window.Quality, window.Window.FailingPlace));
            Assert.Equal(Rear.PeakToPeak, window.Window.StrokeMetres!.Value, 1e-3 * Rear.PeakToPeak);
            Assert.False(window.Sensors[0].Counts);
            Assert.Null(window.Sensors[0].PhaseRadians);
            Assert.NotNull(window.Sensors[0].Reading.Reason);
            Assert.Equal(Several.Extent(phase => Rear.Displacement(phase) - Body.Displacement(phase)), window.Relative.Metres!.Value, 3e-6);
        });
        Assert.Equal(-177, several.PhaseDegrees(2, 1), 0.1);
    }

    [Fact]
    public void A_sensor_that_comes_and_goes_does_not_silence_the_others()
    {
        var loose = Rear with { Read = (_, time, value) => time % 2.1 < 1 ? value : 0.1 * Math.Sin(1e5 * time) };
        var several = Several.Measure([Front, loose], 8);
        Assert.Contains(several.Windows, window => !window.Sensors[1].Counts);
        Assert.All(several.Windows, window =>
        {
            Assert.Equal((WindowQuality.Good, MotionState.Running), (window.Window.Quality, window.Window.Motion));
            Assert.Equal(window.Sensors[1].Counts ? null : SensorPlace.Rear, window.Window.FailingPlace);
        });
    }

    [Fact]
    public void A_clipped_sensor_gives_no_stroke_and_the_others_do()
    {
        var rail = 6 * Gravity.Standard;
        foreach (var sources in new Source[][] { [Front, Clipped(Rear, rail), Body], [Clipped(Front, rail), Rear, Body] })
        {
            var bad = Array.FindIndex(sources, source => source.FullScale is not null);
            Assert.All(Several.Measure(sources).Windows, window =>
            {
                Assert.Equal(WindowQuality.Clipped, window.Sensors[bad].Reading.Quality);
                Assert.Null(window.Sensors[bad].Reading.StrokeMetres);
                Assert.Equal(sources[1 - bad].PeakToPeak, window.Window.StrokeMetres!.Value, 1e-3 * Front.Stroke);
                Assert.True(window.Window.ClippedSamples > 50);
                Assert.Null(window.Window.FailingPlace);
                Assert.NotNull(window.Relative.Metres);
            });
        }
    }

    [Fact]
    public void What_a_clipped_sensor_moves_at_least_stands_beside_the_mean_of_the_others()
    {
        var high = Front with { Stroke = 2.3e-3 };
        Assert.All(Several.Measure([Rear, Clipped(high, 9 * Gravity.Standard) with { Place = SensorPlace.Left }]).Windows, window =>
        {
            Assert.Equal(Rear.PeakToPeak, window.Window.StrokeMetres!.Value, 1e-3 * Rear.Stroke);
            Assert.InRange(window.Window.PeakMetres!.Value, 1.9e-3, 2.3e-3);
        });
    }

    [Fact]
    public void Without_the_body_the_tray_is_measured_and_the_difference_is_not()
    {
        Assert.All(Several.Measure([Front, Rear, Dead(Body)]).Windows, window =>
        {
            Assert.Equal(0.5 * (Front.PeakToPeak + Rear.PeakToPeak), window.Window.StrokeMetres!.Value, 1e-3 * Front.Stroke);
            Assert.Equal("the sensor gives the same value again and again", window.Relative.Reason);
            Assert.Null(window.Relative.Metres);
            Assert.Equal(SensorPlace.Body, window.Window.FailingPlace);
        });
        Assert.All(Several.Measure([Front, Rear]).Windows, window => Assert.Equal("no sensor on the body is listed", window.Relative.Reason));
    }

    [Fact]
    public void The_body_never_enters_what_is_judged()
    {
        var alone = Several.Measure([Front, Rear]).Windows.ConvertAll(window => window.Window);
        var wild = Several.Measure([Front, Rear, Body with { Stroke = 9e-3, Noise = 5 }]).Windows.ConvertAll(window => window.Window);
        Assert.Equal(alone.Count, wild.Count);
        for (var i = 0; i < alone.Count; i++)
        {
            Assert.Equal(alone[i].StrokeMetres!.Value, wild[i].StrokeMetres!.Value, 2e-3 * Front.Stroke);
            Assert.Equal(alone[i].UncertaintyMetres!.Value, wild[i].UncertaintyMetres!.Value, 1e-3 * alone[i].UncertaintyMetres!.Value);
            Assert.Equal((alone[i].LargestPlace, alone[i].Strike), (wild[i].LargestPlace, wild[i].Strike));
        }
    }

    [Fact]
    public void Two_sensors_are_known_better_together_than_one_alone()
    {
        var window = Several.Measure([Front, Rear with { Stroke = 1.75e-3 }]).Windows[1];
        var alone = window.Sensors[0].Reading.UncertaintyMetres!.Value;

        // Sensitivity and alignment are independent; only the mains is one error in both, and small.
        Assert.InRange(window.Window.UncertaintyMetres!.Value / alone, 1 / Math.Sqrt(2), 1.01 / Math.Sqrt(2));
    }

    [Fact]
    public void Marks_of_one_sensor_do_not_spoil_another()
    {
        Source[] sources = [Front, Rear];
        var sink = new Several();
        var meter = new StrokeWatch.Measurement.StrokeMeter(Several.Settings(sources));
        foreach (var block in Several.Blocks(sources, 2, 1))
        {
            block.FillMarks()[..block.Count].Fill(StationSettings.ClippedMark(1));
            meter.Add(block, sink);
        }

        Assert.All(sink.Windows, window => Assert.Equal((WindowQuality.Good, WindowQuality.Clipped), (window.Sensors[0].Reading.Quality, window.Sensors[1].Reading.Quality)));
    }
}
