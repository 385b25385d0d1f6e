namespace StrokeWatch.Assessment.Reports;

/// <summary>Orders and noise over a capture, medians over its steady windows; ratios are amplitudes of acceleration along the line of action over the fundamental's.</summary>
public sealed record LevelSummary
{
    /// <summary>Gets the fundamental's amplitude along the line of action in m/s².</summary>
    public required double Fundamental { get; init; }

    /// <summary>Gets the ratios of orders 1 to 10; the first is 1.</summary>
    public required IReadOnlyList<double> Orders { get; init; }

    /// <summary>Gets the standard deviations of the windows' ratios of orders 1 to 10.</summary>
    public required IReadOnlyList<double> OrderScatter { get; init; }

    /// <summary>Gets the root of the sum of squared ratios of orders 2, 4, 6, 8 and 10.</summary>
    public double Even => Root(2);

    /// <summary>Gets the root of the sum of squared ratios of orders 3, 5, 7 and 9.</summary>
    public double Odd => Root(3);

    /// <summary>Gets the root of the sum of squared ratios of orders 6 to 10.</summary>
    public double High => Math.Sqrt(Orders.Skip(5).Sum(ratio => ratio * ratio));

    /// <summary>Gets the phase of the second order on the fundamental's own clock, in degrees above -180 to 180.</summary>
    public required double SecondPhaseDegrees { get; init; }

    /// <summary>Gets the phase of the third order on the fundamental's own clock, in degrees above -180 to 180.</summary>
    public required double ThirdPhaseDegrees { get; init; }

    /// <summary>Gets the ratio of orders 2 to 10 across the line of action.</summary>
    public required double Across { get; init; }

    /// <summary>Gets the ratio at half the drive's frequency.</summary>
    public required double Half { get; init; }

    /// <summary>Gets the ratio at a third of the drive's frequency.</summary>
    public required double Third { get; init; }

    /// <summary>Gets the r.m.s. below about the drive's frequency that belongs to no order, in m/s².</summary>
    public required double Slow { get; init; }

    /// <summary>Gets the r.m.s. of one axis that belongs to no order, in m/s².</summary>
    public required double Noise { get; init; }

    /// <summary>Gets the largest window's noise over the median's; 1 where all windows are alike.</summary>
    public required double NoiseCrest { get; init; }

    private double Root(int first)
    {
        var sum = 0.0;
        for (var order = first; order <= Orders.Count; order += 2)
        {
            sum += Orders[order - 1] * Orders[order - 1];
        }

        return Math.Sqrt(sum);
    }
}
