using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Calibration;

/// <summary>Mean and deviation of three axes at rest, gathered block by block in m/s². Source of the recurrence: Welford, Technometrics 1962 (from memory).</summary>
public sealed class RestingStatistics
{
    private readonly double[] mean = new double[3];
    private readonly double[] squares = new double[3];

    /// <summary>Gets the number of samples.</summary>
    public long Count { get; private set; }

    /// <summary>Gets how many of them stand at the sensor's rail.</summary>
    public long Clipped { get; private set; }

    /// <summary>Gets the means of x, y and z.</summary>
    public IReadOnlyList<double> Means => mean;

    /// <summary>Takes a block whose channels are given by axis.</summary>
    public void Add(SampleBlock block, IReadOnlyList<Axis> axes)
    {
        var before = Count;
        for (var channel = 0; channel < axes.Count; channel++)
        {
            var axis = (int)axes[channel];
            var number = before;
            foreach (var value in block[channel])
            {
                number++;
                var away = value - mean[axis];
                mean[axis] += away / number;
                squares[axis] += away * (value - mean[axis]);
            }
        }

        Count += block.Count;
        foreach (var mark in block.Marks)
        {
            Clipped += (mark & SampleMarks.Clipped) != 0 ? 1 : 0;
        }
    }

    /// <summary>Gives the standard deviation of an axis.</summary>
    public double Deviation(Axis axis) => Count > 1 ? Math.Sqrt(squares[(int)axis] / (Count - 1)) : 0;
}
