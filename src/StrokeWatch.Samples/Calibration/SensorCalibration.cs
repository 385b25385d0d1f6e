namespace StrokeWatch.Samples.Calibration;

/// <summary>A sensor's calibration: m = K·a + b, with m as the sensor reads and a as it truly is, and how well that is known.</summary>
public sealed record SensorCalibration
{
    /// <summary>Gets the day of the calibration.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>Gets the method, in words.</summary>
    public required string Method { get; init; }

    /// <summary>Gets K, nine numbers row by row: what x, y and z read of each unit along x, y and z.</summary>
    public required IReadOnlyList<double> Gain { get; init; }

    /// <summary>Gets b, three numbers in m/s².</summary>
    public required IReadOnlyList<double> Bias { get; init; }

    /// <summary>Gets the expanded relative uncertainty (k = 2) of an acceleration along any direction.</summary>
    public required double ExpandedUncertainty { get; init; }

    /// <summary>Gets its degrees of freedom; infinite where they are taken as known.</summary>
    public double DegreesOfFreedom { get; init; } = double.PositiveInfinity;

    /// <summary>Gets the largest share of one axis that another hears, 0 or more.</summary>
    public double LargestCrossGain
    {
        get
        {
            var largest = 0.0;
            for (var i = 0; i < 3; i++)
            {
                for (var j = 0; j < 3; j++)
                {
                    largest = i == j ? largest : Math.Max(largest, Math.Abs(Gain[3 * i + j] / Gain[4 * i]));
                }
            }

            return largest;
        }
    }

    /// <summary>Writes method and day: <c>six-position tumble, 2026-03-14</c>.</summary>
    public override string ToString() => $"{Method}, {Date.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}";
}
