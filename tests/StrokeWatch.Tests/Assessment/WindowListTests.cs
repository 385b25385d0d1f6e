using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using Xunit;

namespace StrokeWatch.Tests.Assessment;

/// <summary>The packed list of windows gives back what was put in.</summary>
public sealed class WindowListTests
{
    [Fact]
    public void Every_property_of_a_window_comes_back_as_it_was()
    {
        var bare = new WindowReading { StartSeconds = 1.25, LengthSeconds = 0.5, Quality = WindowQuality.Gap, Motion = MotionState.Unknown };
        var full = new WindowReading
        {
            StartSeconds = 2.5,
            LengthSeconds = 0.51,
            Quality = WindowQuality.Clipped,
            Motion = MotionState.CoastingDown,
            Reason = "samples stand at the sensor's rail",
            FrequencyHz = 50,
            ClockError = -1e-3,
            StrokeMetres = 1.7e-3,
            FundamentalMetres = 1.69e-3,
            AtLeastMetres = 1.6e-3,
            UncertaintyMetres = 2e-5,
            NoiseMetres = 1e-7,
            LineAngleDegrees = -25,
            EllipseRatio = 0.02,
            Strike = true,
            StrikeScore = 3.5,
            StrikeCarried = true,
            StrikePossible = true,
            StrikeEvery = 2,
            Timed = true,
            ClippedSamples = 70_000,
            LargestMetres = 1.8e-3,
            LargestPlace = SensorPlace.Front,
            FailingPlace = SensorPlace.Body,
        };

        // A property that is added to the reading and not to the packed window would come back empty: all of them are set here, but for the levels
        // and the supply, of which a capture keeps its own summaries.
        Assert.All(typeof(WindowReading).GetProperties().Where(property => property.Name is not (nameof(WindowReading.Levels) or nameof(WindowReading.Supply) or nameof(WindowReading.Unheard))), property => Assert.NotNull(property.GetValue(full)));
        Assert.All(typeof(WindowReading).GetProperties().Where(property => property is { CanWrite: true, Name: not nameof(WindowReading.Stuck) } && property.PropertyType == typeof(bool)), property => Assert.Equal(true, property.GetValue(full)));
        var list = new WindowList();
        for (var i = 0; i < 1300; i++)
        {
            list.Add(new(i % 2 == 0 ? bare : full with { StartSeconds = i }, i % 2 == 0 ? Verdict.Unmeasurable : Verdict.OverStroke));
        }

        Assert.Equal(1300, list.Count);
        Assert.Equal(new AssessedWindow(bare, Verdict.Unmeasurable), list[1298]);
        Assert.Equal(new AssessedWindow(full with { StartSeconds = 1299 }, Verdict.OverStroke), list[1299]);
        Assert.Equal(list[513], list.ElementAt(513));
        Assert.Throws<ArgumentOutOfRangeException>(() => list[1300]);
    }
}
