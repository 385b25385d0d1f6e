namespace StrokeWatch.Assessment.Trends;

/// <summary>A tabular CUSUM chart that looks both ways; C⁺ = max(0, z − k + C⁺), C⁻ = max(0, −z − k + C⁻), with the number of readings since each left zero.</summary>
/// <remarks>Source: Montgomery, Introduction to Statistical Quality Control, chapter on cumulative sums; the head start after Lucas and Crosier 1982.</remarks>
public sealed class Cusum
{
    private readonly double allowance;
    private readonly double decision;
    private readonly double most;

    /// <summary>Sets a chart up.</summary>
    /// <param name="allowance">k, in the unit of what is added.</param>
    /// <param name="decision">h, the sum that signals.</param>
    /// <param name="headStart">What both sums begin at: 0, or h/2 for a fast initial response.</param>
    /// <param name="most">What no sum exceeds, so that a chart that has signalled comes back in good time; at least h.</param>
    public Cusum(double allowance, double decision, double headStart = 0, double most = double.PositiveInfinity)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(decision);
        ArgumentOutOfRangeException.ThrowIfNegative(headStart);
        ArgumentOutOfRangeException.ThrowIfLessThan(most, decision);
        this.allowance = allowance;
        this.decision = decision;
        this.most = most;
        Rise = Fall = headStart;
    }

    /// <summary>Gets the sum of the rise, C⁺.</summary>
    public double Rise { get; private set; }

    /// <summary>Gets the sum of the fall, C⁻.</summary>
    public double Fall { get; private set; }

    /// <summary>Gets how many readings the sum of the rise has been above zero.</summary>
    public int RiseReadings { get; private set; }

    /// <summary>Gets how many readings the sum of the fall has been above zero.</summary>
    public int FallReadings { get; private set; }

    /// <summary>Gets the signal: 1 for a rise, -1 for a fall, 0 for none; of two the larger.</summary>
    public int Signal => Rise <= decision && Fall <= decision ? 0 : Rise >= Fall ? 1 : -1;

    /// <summary>Adds a reading's distance from its target.</summary>
    /// <param name="distance">Not NaN.</param>
    public void Add(double distance)
    {
        if (double.IsNaN(distance))
        {
            throw new ArgumentOutOfRangeException(nameof(distance), distance, "A reading is a number.");
        }

        Rise = Math.Clamp(Rise + distance - allowance, 0, most);
        Fall = Math.Clamp(Fall - distance - allowance, 0, most);
        RiseReadings = Rise > 0 ? RiseReadings + 1 : 0;
        FallReadings = Fall > 0 ? FallReadings + 1 : 0;
    }
}
