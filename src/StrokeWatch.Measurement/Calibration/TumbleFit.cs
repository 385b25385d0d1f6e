namespace StrokeWatch.Measurement.Calibration;

/// <summary>
/// The twelve numbers of m = K·a + b by least squares from the means of six positions: K's columns are (m₊ⱼ − m₋ⱼ)/2g, b is the mean of the six.
/// </summary>
public sealed class TumbleFit
{
    /// <summary>Degrees of freedom: eighteen readings less twelve numbers.</summary>
    public const int DegreesOfFreedom = 6;

    private TumbleFit(double[] gain, double[] bias, double[][] residuals)
    {
        Gain = gain;
        Bias = bias;
        Residuals = residuals;
        ResidualDeviation = Math.Sqrt(residuals.Sum(three => three.Sum(value => value * value)) / DegreesOfFreedom);
    }

    /// <summary>Gets K, row by row.</summary>
    public IReadOnlyList<double> Gain { get; }

    /// <summary>Gets b, in the unit of the means.</summary>
    public IReadOnlyList<double> Bias { get; }

    /// <summary>Gets what each position reads beyond K·a + b, three numbers a position, in the order of <see cref="TumblePosition.All"/>.</summary>
    public IReadOnlyList<IReadOnlyList<double>> Residuals { get; }

    /// <summary>Gets the standard deviation of a reading, from the residuals.</summary>
    public double ResidualDeviation { get; }

    /// <summary>Fits.</summary>
    /// <param name="means">Six times x, y and z in the order of <see cref="TumblePosition.All"/>.</param>
    /// <param name="gravity">Local gravity in the same unit.</param>
    public static TumbleFit Of(IReadOnlyList<IReadOnlyList<double>> means, double gravity)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(means.Count, 6, nameof(means));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(gravity);
        var gain = new double[9];
        var bias = new double[3];
        for (var i = 0; i < 3; i++)
        {
            bias[i] = means.Average(mean => mean[i]);
            for (var j = 0; j < 3; j++)
            {
                gain[3 * i + j] = (means[2 * j][i] - means[2 * j + 1][i]) / (2 * gravity);
            }
        }

        var residuals = new double[6][];
        for (var p = 0; p < 6; p++)
        {
            var sign = p % 2 == 0 ? 1 : -1;
            residuals[p] = [.. Enumerable.Range(0, 3).Select(i => means[p][i] - bias[i] - sign * gravity * gain[3 * i + p / 2])];
        }

        return new(gain, bias, residuals);
    }
}
