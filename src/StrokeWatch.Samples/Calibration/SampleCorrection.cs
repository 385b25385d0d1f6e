using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Samples.Calibration;

/// <summary>Turns what a sensor reads into what truly is, K⁻¹(m − b), block by block and in place; nothing is allocated a block.</summary>
public sealed class SampleCorrection
{
    /// <summary>From this share of the full scale on, a sample as read counts as standing at the rail.</summary>
    private const double Rail = 0.995;

    private readonly double[] inverse;
    private readonly double[] bias;
    private readonly double? fullScale;
    private readonly int axes;

    /// <summary>Makes the correction for a source.</summary>
    /// <param name="calibration">The calibration.</param>
    /// <param name="axes">The axis of each channel, each once; an axis that the source lacks is taken as at rest.</param>
    /// <param name="fullScale">The sensor's full scale in m/s² as it reads, either sign; null where unknown.</param>
    /// <exception cref="CaptureException">An axis comes twice, or the gain has no inverse.</exception>
    public SampleCorrection(SensorCalibration calibration, IReadOnlyList<Axis> axes, double? fullScale)
    {
        if (axes.Distinct().Count() != axes.Count)
        {
            throw new CaptureException("the sensor's calibration is for one sensor of axes x, y and z, but the samples have an axis twice; choose one sensor's columns with --columns");
        }

        this.axes = axes.Count;
        this.fullScale = fullScale;
        bias = [.. axes.Select(axis => calibration.Bias[(int)axis])];

        // An axis that is not there stands in the matrix by itself: the others' part of the inverse is then theirs alone.
        var gain = calibration.Gain.ToArray();
        for (var i = 0; i < 9; i++)
        {
            if (!axes.Contains((Axis)(i / 3)) || !axes.Contains((Axis)(i % 3)))
            {
                gain[i] = i % 4 == 0 ? 1 : 0;
            }
        }

        var whole = SquareMatrix.Inverse(gain) ?? throw new CaptureException("the calibration's gain has no inverse; calibrate anew");
        inverse = new double[axes.Count * axes.Count];
        for (var i = 0; i < axes.Count; i++)
        {
            for (var j = 0; j < axes.Count; j++)
            {
                inverse[i * axes.Count + j] = whole[3 * (int)axes[i] + (int)axes[j]];
            }
        }
    }

    /// <summary>Gets a value in m/s², either sign, that no corrected sample reaches unless it was read at the rail; null where the full scale is unknown.</summary>
    public double? CorrectedFullScale
    {
        get
        {
            var largest = 0.0;
            for (var i = 0; i < axes; i++)
            {
                var reach = 0.0;
                for (var j = 0; j < axes; j++)
                {
                    reach += Math.Abs(inverse[i * axes + j]) * ((fullScale ?? 0) + Math.Abs(bias[j]));
                }

                largest = Math.Max(largest, reach);
            }

            return fullScale is null ? null : largest;
        }
    }

    /// <summary>Corrects a block in place, marking first what stands at the rail.</summary>
    public void Apply(SampleBlock block)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(block.Channels, axes, nameof(block));
        Apply(block, 0, SampleMarks.Clipped);
    }

    /// <summary>Corrects one sensor's channels of a block of several sensors in place, marking first what stands at the rail.</summary>
    /// <param name="block">The block.</param>
    /// <param name="first">The sensor's first channel, from 0; its others follow.</param>
    /// <param name="mark">The mark of a sample at the rail.</param>
    public void Apply(SampleBlock block, int first, SampleMarks mark)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(first);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(first + axes, block.Channels, nameof(first));
        Mark(block, first, mark);
        var count = block.Count;
        var x = block.Fill(first)[..count];
        var y = axes > 1 ? block.Fill(first + 1)[..count] : default;
        var z = axes > 2 ? block.Fill(first + 2)[..count] : default;
        switch (axes)
        {
            case 1:
                Scale(x);
                break;
            case 2:
                Two(x, y);
                break;
            default:
                Three(x, y, z);
                break;
        }
    }

    private void Mark(SampleBlock block, int first, SampleMarks mark)
    {
        if (fullScale is not { } full)
        {
            return;
        }

        var rail = Rail * full;
        var marks = block.FillMarks()[..block.Count];
        for (var a = 0; a < axes; a++)
        {
            var values = block[first + a];
            for (var n = 0; n < values.Length; n++)
            {
                if (Math.Abs(values[n]) >= rail)
                {
                    marks[n] |= mark;
                }
            }
        }
    }

    private void Scale(Span<double> x)
    {
        for (var n = 0; n < x.Length; n++)
        {
            x[n] = inverse[0] * (x[n] - bias[0]);
        }
    }

    private void Two(Span<double> x, Span<double> y)
    {
        var (xx, xy, yx, yy) = (inverse[0], inverse[1], inverse[2], inverse[3]);
        for (var n = 0; n < x.Length && n < y.Length; n++)
        {
            var (a, b) = (x[n] - bias[0], y[n] - bias[1]);
            x[n] = xx * a + xy * b;
            y[n] = yx * a + yy * b;
        }
    }

    private void Three(Span<double> x, Span<double> y, Span<double> z)
    {
        var k = inverse;
        var (bx, by, bz) = (bias[0], bias[1], bias[2]);
        var (xx, xy, xz, yx, yy, yz, zx, zy, zz) = (k[0], k[1], k[2], k[3], k[4], k[5], k[6], k[7], k[8]);
        for (var n = 0; n < x.Length && n < y.Length && n < z.Length; n++)
        {
            var (a, b, c) = (x[n] - bx, y[n] - by, z[n] - bz);
            x[n] = xx * a + xy * b + xz * c;
            y[n] = yx * a + yy * b + yz * c;
            z[n] = zx * a + zy * b + zz * c;
        }
    }
}
