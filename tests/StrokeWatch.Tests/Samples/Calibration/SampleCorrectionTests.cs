using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Calibration;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Samples.Calibration;

[Collection(Undisturbed.Name)]
public sealed class SampleCorrectionTests
{
    private static readonly SensorCalibration Known = new()
    {
        Date = new(2026, 3, 14),
        Method = "six-position tumble",
        Gain = [1.002, 0.009, -0.010, 0.008, 0.994, 0.009, -0.024, 0.014, 1.030],
        Bias = [0.019, 0.004, 0.006],
        ExpandedUncertainty = 0.01,
    };

    // Derived from a = K⁻¹(m − b), checked with mpmath.
    [Fact]
    public void A_reading_becomes_the_acceleration_that_made_it()
    {
        var block = Block([0.5, 0.5, 0.7]);
        new SampleCorrection(Known, [Axis.X, Axis.Y, Axis.Z], null).Apply(block);

        Assert.Equal(0.48241825, block[0][0], 8);
        Assert.Equal(0.48896904, block[1][0], 8);
        Assert.Equal(0.67838104, block[2][0], 8);
    }

    [Fact]
    public void The_order_of_the_channels_does_not_matter()
    {
        var block = Block([0.7, 0.5, 0.5]);
        new SampleCorrection(Known, [Axis.Z, Axis.X, Axis.Y], null).Apply(block);

        Assert.Equal(0.67838104, block[0][0], 8);
        Assert.Equal(0.48241825, block[1][0], 8);
        Assert.Equal(0.48896904, block[2][0], 8);
    }

    [Fact]
    public void Two_axes_are_corrected_between_themselves_where_the_third_does_not_move()
    {
        // m = K(2, 0, -3) + b, of which x and z are seen.
        var block = Block([1.002 * 2 + 0.010 * 3 + 0.019, -0.024 * 2 - 1.030 * 3 + 0.006]);
        new SampleCorrection(Known, [Axis.X, Axis.Z], null).Apply(block);

        Assert.Equal(2, block[0][0], 12);
        Assert.Equal(-3, block[1][0], 12);
    }

    [Fact]
    public void One_axis_alone_keeps_bias_and_gain()
    {
        // 1 g tumble of one axis: up 1.031, down -0.973 give bias 0.029 and gain 1.002; 11.00 is 10.9491018 g (arithmetic).
        var single = Known with { Gain = [1, 0, 0, 0, 1, 0, 0, 0, 1.002], Bias = [0, 0, 0.029] };
        var block = Block([11.0]);
        new SampleCorrection(single, [Axis.Z], null).Apply(block);
        Assert.Equal(10.9491018, block[0][0], 7);
    }

    [Fact]
    public void A_sample_read_at_the_rail_is_marked_before_it_is_moved_off_it()
    {
        var correction = new SampleCorrection(Known, [Axis.X, Axis.Y, Axis.Z], 2);
        var block = Block([1.98, 0, 0], [0, 0, -2], [0, 1.995, 0]);
        correction.Apply(block);

        Assert.Equal([SampleMarks.None, SampleMarks.Clipped, SampleMarks.Clipped], block.Marks.ToArray());
        Assert.True(correction.CorrectedFullScale > 2);
        Assert.Null(new SampleCorrection(Known, [Axis.X], null).CorrectedFullScale);
    }

    [Fact]
    public void No_unclipped_reading_reaches_the_corrected_full_scale()
    {
        var correction = new SampleCorrection(Known, [Axis.X, Axis.Y, Axis.Z], 2);
        var random = new Random(5);
        for (var i = 0; i < 1000; i++)
        {
            var block = Block([4 * random.NextDouble() - 2, 4 * random.NextDouble() - 2, 4 * random.NextDouble() - 2]);
            correction.Apply(block);
            for (var a = 0; a < 3; a++)
            {
                Assert.InRange(Math.Abs(block[a][0]), 0, correction.CorrectedFullScale!.Value);
            }
        }
    }

    [Fact]
    public void A_block_is_corrected_without_an_allocation()
    {
        var correction = new SampleCorrection(Known, [Axis.X, Axis.Y, Axis.Z], 2);
        var block = Block([0.5, 0.5, 0.7]);
        correction.Apply(block);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 100; i++)
        {
            correction.Apply(block);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void An_axis_that_comes_twice_is_refused_in_one_line()
    {
        var refused = Assert.Throws<CaptureException>(() => new SampleCorrection(Known, [Axis.X, Axis.X], null));
        Assert.Contains("have an axis twice", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_matrix_of_dependent_rows_has_no_inverse()
    {
        Assert.Null(SquareMatrix.Inverse([1, 2, 3, 2, 4, 6, 0, 0, 1]));
        Assert.Null(SquareMatrix.Inverse([0, 0, 0, 0, 1, 0, 0, 0, 1]));
        Assert.Equal([0, 1, 0, 1, 0, 0, 0, 0, 0.5], SquareMatrix.Inverse([0, 1, 0, 1, 0, 0, 0, 0, 2])!);
    }

    private static SampleBlock Block(params double[][] samples)
    {
        var block = new SampleBlock(samples[0].Length, samples.Length);
        for (var n = 0; n < samples.Length; n++)
        {
            for (var a = 0; a < samples[n].Length; a++)
            {
                block.Fill(a)[n] = samples[n][a];
            }
        }

        block.SetCount(samples.Length);
        return block;
    }
}
