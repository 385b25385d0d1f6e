using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Calibration;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

public sealed class SampleRepairTests
{
    private static readonly SensorCalibration Doubled = new()
    {
        Date = new(2026, 3, 14),
        Method = "six-position tumble",
        Gain = [2, 0, 0, 0, 2, 0, 0, 0, 2],
        Bias = [1, 0, 0],
        ExpandedUncertainty = 0.003,
    };

    [Theory]
    [InlineData(100.0, null, null)]
    [InlineData(null, 100.0, null)]
    [InlineData(null, null, 100.0)]
    public void A_sample_at_the_rail_is_marked_for_the_sensor_that_stands_there(double? sourceScale, double? ownScale, double? numberRail)
    {
        var repair = new SampleRepair(Feeder(null), Settings(ownScale), numberRail);
        var block = Block(sourceScale, [5, 100, 5, -100, 7], [5, 5, 5, 5, 100]);
        repair.Apply(block);
        Assert.Equal(
            [SampleMarks.None, StationSettings.ClippedMark(0), SampleMarks.None, StationSettings.ClippedMark(0), StationSettings.ClippedMark(1)], block.Marks.ToArray());
    }

    [Fact]
    public void A_mark_that_no_sensor_explains_stays_for_all()
    {
        var block = Block(null, [5], [5]);
        block.FillMarks()[0] = SampleMarks.Clipped;
        new SampleRepair(Feeder(null), Settings(100)).Apply(block);
        Assert.Equal(SampleMarks.Clipped, block.Marks[0]);
    }

    [Fact]
    public void A_calibrated_sensor_is_corrected_and_marked_and_the_other_left_as_read()
    {
        var repair = new SampleRepair(Feeder(Doubled), Settings(100));
        var block = Block(100, [5, 9], [5, 100]);
        repair.Apply(block);
        Assert.Equal([5, 9], block[0].ToArray());
        Assert.Equal([2, 49.5], block[2].ToArray());
        Assert.Equal([SampleMarks.None, StationSettings.ClippedMark(1)], block.Marks.ToArray());
        Assert.Equal(100, repair.Settings.Stations[0].FullScale);
        Assert.Equal(0.5 * 101, repair.Settings.Stations[1].FullScale);
    }

    private static FeederDescription Feeder(SensorCalibration? rear) => new()
    {
        Name = "Sand feeder",
        Drive = new(50, 1, false),
        Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90)),
        Sensors = [new(SensorPlace.Front, [], new()), new(SensorPlace.Rear, [], new() { Calibration = rear })],
    };

    private static MeterSettings Settings(double? fullScale) => new()
    {
        Axes = [Axis.X, Axis.Z, Axis.X],
        RateHz = 1000,
        NominalHz = 50,
        Stations = [new(SensorPlace.Front, 0, 2, fullScale, StrokeContributions.None), new(SensorPlace.Rear, 2, 1, fullScale, StrokeContributions.None)],
    };

    /// <summary>Makes a block as a source delivers it: whatever is 100 in size is marked, whosever it is.</summary>
    private static SampleBlock Block(double? fullScale, double[] front, double[] rear)
    {
        var block = new SampleBlock(3, front.Length) { FullScale = fullScale };
        for (var n = 0; n < front.Length; n++)
        {
            (block.Fill(0)[n], block.Fill(2)[n]) = (front[n], rear[n]);
            block.FillMarks()[n] = Math.Max(Math.Abs(front[n]), rear[n]) >= 100 ? SampleMarks.Clipped : SampleMarks.None;
        }

        block.SetCount(front.Length);
        return block;
    }
}
