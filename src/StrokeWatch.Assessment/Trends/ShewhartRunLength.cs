namespace StrokeWatch.Assessment.Trends;

/// <summary>Average run lengths of charts that judge each reading by itself.</summary>
public static class ShewhartRunLength
{
    /// <summary>Gives the average number of readings until one lies beyond the limits: one over the probability of that.</summary>
    /// <param name="width">The limits in standard deviations.</param>
    /// <param name="law">The law of the readings.</param>
    public static double TwoSided(double width, IncrementLaw law) => 1 / (law.Below(-width) + law.Mirrored().Below(-width));
}
