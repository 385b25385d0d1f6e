namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>What a symptom was while the machine was healthy.</summary>
/// <param name="Mean">Its mean.</param>
/// <param name="Spread">The standard deviation of one reading, the machine's own drawn towards what is usual.</param>
/// <param name="Count">How many readings tell the mean; infinite where it was told.</param>
internal readonly record struct Past(double Mean, double Spread, double Count)
{
    /// <summary>How many captures the usual spread of a symptom counts for, beside the machine's own.</summary>
    private const double PriorCaptures = 4;

    /// <summary>Gives it by a mean and a sum of squares about it.</summary>
    /// <param name="symptom">The symptom.</param>
    /// <param name="mean">The mean.</param>
    /// <param name="squares">The sum of the squared differences from it.</param>
    /// <param name="count">The number of readings.</param>
    public static Past Of(Symptom symptom, double mean, double squares, int count) =>
        new(mean, Math.Sqrt((PriorCaptures * symptom.Spread * symptom.Spread + squares) / (PriorCaptures + count - 1)), count);

    /// <summary>Gives it by some readings, one at least.</summary>
    public static Past Of(Symptom symptom, double[] readings)
    {
        // Angles are counted from the first, so that a mean across the end of the turn is none across the circle.
        var origin = readings[0];
        var mean = origin + readings.Average(value => symptom.Apart(value, origin));
        return Of(symptom, mean, readings.Sum(value => Math.Pow(symptom.Apart(value, mean), 2)), readings.Length);
    }
}
