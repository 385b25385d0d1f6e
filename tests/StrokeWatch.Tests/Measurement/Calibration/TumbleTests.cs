using StrokeWatch.Measurement.Calibration;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Calibration;

public sealed class TumbleTests
{
    /// <summary>Six positions in g, in the order x+, x-, y+, y-, z+, z-.</summary>
    internal static readonly double[][] Positions =
    [
        [1.021, 0.012, -0.018], [-0.983, -0.004, 0.030], [0.028, 0.998, 0.020], [0.010, -0.990, -0.008], [0.009, 0.013, 1.036], [0.029, -0.005, -1.024],
    ];

    internal static readonly double[] Gain = [1.002, 0.009, -0.010, 0.008, 0.994, 0.009, -0.024, 0.014, 1.030];

    internal static readonly double[] Bias = [0.019, 0.004, 0.006];

    // Numbers derived by arithmetic from the model m = K·a + b; scale and offset by up and down: public tutorials on MEMS sensors.
    [Fact]
    public void Six_positions_give_gain_and_bias()
    {
        var fit = TumbleFit.Of(Positions, 1);
        for (var i = 0; i < 9; i++)
        {
            Assert.Equal(Gain[i], fit.Gain[i], 12);
        }

        for (var i = 0; i < 3; i++)
        {
            Assert.Equal(Bias[i], fit.Bias[i], 12);
        }
    }

    [Fact]
    public void Positions_that_follow_the_model_leave_no_residual_and_others_leave_what_they_are_off()
    {
        // These six do: each pair's mean is the bias.
        Assert.Equal(0, TumbleFit.Of(Positions, 1).ResidualDeviation, 12);

        // Pairs off by (+d, -d, 0) on x leave twice d², twice: √(4d²/6).
        var moved = Positions.Select((three, p) => new[] { three[0] + (p < 2 ? 0.01 : p < 4 ? -0.01 : 0), three[1], three[2] }).ToArray();
        var fit = TumbleFit.Of(moved, 1);
        Assert.Equal(0.01 * Math.Sqrt(4.0 / 6), fit.ResidualDeviation, 12);
        Assert.Equal(0.01, fit.Residuals[0][0], 12);
        Assert.Equal(-0.01, fit.Residuals[3][0], 12);
        Assert.Equal(1.002, fit.Gain[0], 12);
    }

    // Arithmetic: 1 − cos.
    [Fact]
    public void A_degree_of_tilt_takes_152_ppm_off_the_reference()
    {
        Assert.Equal(152.3048e-6, TumbleBudget.LevelError(1), 9);
        Assert.Equal(609.173e-6, TumbleBudget.LevelError(2), 9);
    }

    // WGS 84, formula of Somigliana; digits computed with mpmath.
    [Theory]
    [InlineData(0, 9.7803253359)]
    [InlineData(45, 9.8061977694)]
    [InlineData(-45, 9.8061977694)]
    [InlineData(90, 9.8321849379)]
    public void Gravity_follows_from_the_latitude(double latitude, double gravity)
    {
        Assert.Equal(gravity, LocalGravity.OnEllipsoid(latitude), 10);
        Assert.Equal(gravity - 3.086e-3, LocalGravity.At(latitude, 1000).Value, 10);
        Assert.True(Math.Abs(gravity / Gravity.Standard - 1) < LocalGravity.Unknown.RelativeHalfWidth);
    }

    [Fact]
    public void The_budget_names_what_a_tumble_rests_on()
    {
        var budget = TumbleBudget.Of(TumbleFit.Of(Positions, 1), LocalGravity.Unknown, 1, 0.005);
        var percent = budget.Components.ToDictionary(part => part.Name, part => 100 * part.Contribution);

        Assert.Equal(["repeatability", "level", "axis-directions", "gravity", "linearity"], percent.Keys);
        Assert.Equal(0.01523048 / Math.Sqrt(3), percent["level"], 7);
        Assert.Equal(1.7452406 / Math.Sqrt(9), percent["axis-directions"], 6);
        Assert.Equal(0.27 / Math.Sqrt(3), percent["gravity"], 9);
        Assert.Equal(0.5 / Math.Sqrt(3), percent["linearity"], 9);
        Assert.Equal(Math.Sqrt(percent.Values.Sum(value => value * value)), 100 * budget.Combined, 12);
    }

    /// <summary>Errors of the stated size in the gain's places never make more than the budget says, whatever the line of action.</summary>
    [Fact]
    public void Leaning_axes_never_move_a_stroke_by_more_than_the_budget_says()
    {
        var random = new Random(7);
        const double Size = 0.0123;
        double Square(double[] d)
        {
            var sum = 0.0;
            for (var i = 0; i < 3; i++)
            {
                for (var j = 0; j < 3; j++)
                {
                    sum += i == j ? 0 : Math.Pow(d[i] * d[j] * Size, 2);
                }
            }

            return Math.Sqrt(sum);
        }

        var diagonal = 1 / Math.Sqrt(3);
        Assert.Equal(Size * Math.Sqrt(2.0 / 3), Square([diagonal, diagonal, diagonal]), 12);
        for (var run = 0; run < 1000; run++)
        {
            double[] d = [Signal.Gauss(random), Signal.Gauss(random), Signal.Gauss(random)];
            var length = Math.Sqrt(d.Sum(value => value * value));
            Assert.True(Square([.. d.Select(value => value / length)]) <= Size * Math.Sqrt(2.0 / 3) * (1 + 1e-12));
        }
    }

    [Theory]
    [InlineData("z+", 0, 0, 1, 0.01, 1000, null)]
    [InlineData("z+", 0, 0, 1, 0.01, 50, "holds 50 samples of position z+; 100 or more were expected: record some seconds")]
    [InlineData("z+", 0, 0, 1, 0.2, 1000, "the sensor was not still in position z+: x scatters by 0.")]
    [InlineData("z+", 0, 0, -1, 0.01, 1000, "is given as z+, but gravity stands on z- (x ")]
    [InlineData("x-", 0, 0, 1, 0.01, 1000, "is given as x-, but gravity stands on z+ (x ")]
    [InlineData("z+", 0, 0, 1.4, 0.01, 1000, "position z+ reads x ")]
    [InlineData("z+", 0.35, 0, 0.94, 0.01, 1000, "position z+ reads x 0.35")]
    public void A_capture_unfit_for_its_position_is_told(string name, double x, double y, double z, double noise, int count, string? says)
    {
        Assert.True(TumblePosition.TryParse(name, out var position));
        var random = new Random(3);
        var rest = new RestingStatistics();
        double[] means = [x, y, z];
        for (var left = count; left > 0; left -= 300)
        {
            var block = new SampleBlock(3, Math.Min(300, left));
            for (var a = 0; a < 3; a++)
            {
                for (var n = 0; n < block.Capacity; n++)
                {
                    block.Fill(a)[n] = Gravity.Standard * (means[a] + noise * Signal.Gauss(random));
                }
            }

            block.SetCount(block.Capacity);
            rest.Add(block, [Axis.X, Axis.Y, Axis.Z]);
        }

        var trouble = TumbleCheck.Trouble(position, rest);
        if (says is null)
        {
            Assert.Null(trouble);
        }
        else
        {
            Assert.StartsWith(says, trouble, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Mean_and_deviation_are_the_arithmetics_however_the_blocks_are_cut_and_named()
    {
        var random = new Random(9);
        var values = Enumerable.Range(0, 1000).Select(_ => 9.8 + Signal.Gauss(random)).ToArray();
        var rest = new RestingStatistics();
        foreach (var chunk in values.Chunk(137))
        {
            var block = new SampleBlock(3, chunk.Length);
            chunk.CopyTo(block.Fill(0));
            chunk.Select(value => 2 * value).ToArray().CopyTo(block.Fill(1));
            block.SetCount(chunk.Length);
            rest.Add(block, [Axis.Z, Axis.X, Axis.Y]);
        }

        var mean = values.Average();
        var deviation = Math.Sqrt(values.Sum(value => (value - mean) * (value - mean)) / 999);
        Assert.Equal(mean, rest.Means[2], 10);
        Assert.Equal(2 * mean, rest.Means[0], 10);
        Assert.Equal(deviation, rest.Deviation(Axis.Z), 10);
        Assert.Equal(2 * deviation, rest.Deviation(Axis.X), 10);
        Assert.Equal(0, rest.Deviation(Axis.Y));
    }
}
