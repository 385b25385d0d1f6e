namespace StrokeWatch.Assessment.Trends;

/// <summary>An exponentially weighted moving average z = λx + (1 − λ)z with limits that are exact from the first reading: ±Lσ √(λ/(2 − λ) · (1 − (1 − λ)²ⁱ)).</summary>
/// <remarks>Source: Lucas and Saccucci 1990; NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4.</remarks>
public sealed class Ewma
{
    private readonly double weight;
    private readonly double width;
    private readonly double centre;
    private readonly double deviation;
    private double left = 1;

    /// <summary>Sets a chart up.</summary>
    /// <param name="weight">λ, the share of the newest reading, above 0 to 1.</param>
    /// <param name="width">L, the limits in standard deviations of the average.</param>
    /// <param name="centre">The target, at which the average begins.</param>
    /// <param name="deviation">σ, the standard deviation of a reading.</param>
    public Ewma(double weight, double width, double centre = 0, double deviation = 1)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(weight);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(weight, 1);
        this.weight = weight;
        this.width = width;
        this.centre = Value = centre;
        this.deviation = deviation;
    }

    /// <summary>Gets the average.</summary>
    public double Value { get; private set; }

    /// <summary>Gets the standard deviation of the average by now.</summary>
    public double Deviation => deviation * FinalDeviation(weight) * Math.Sqrt(1 - left);

    /// <summary>Gets the upper limit by now.</summary>
    public double Upper => centre + width * Deviation;

    /// <summary>Gets the lower limit by now.</summary>
    public double Lower => centre - width * Deviation;

    /// <summary>Gets the signal: 1 above the upper limit, -1 below the lower, 0 between.</summary>
    public int Signal => Value > Upper ? 1 : Value < Lower ? -1 : 0;

    /// <summary>Gives the standard deviation of the average after many readings of standard deviation 1.</summary>
    public static double FinalDeviation(double weight) => Math.Sqrt(weight / (2 - weight));

    /// <summary>Gives the standard deviation of the average after some readings of standard deviation 1.</summary>
    public static double DeviationAt(double weight, int readings) => FinalDeviation(weight) * Math.Sqrt(1 - Math.Pow(1 - weight, 2 * readings));

    /// <summary>Adds a reading.</summary>
    /// <param name="reading">Not NaN.</param>
    public void Add(double reading)
    {
        if (double.IsNaN(reading))
        {
            throw new ArgumentOutOfRangeException(nameof(reading), reading, "A reading is a number.");
        }

        Value += weight * (reading - Value);
        left *= (1 - weight) * (1 - weight);
    }
}
