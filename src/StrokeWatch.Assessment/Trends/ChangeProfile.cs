namespace StrokeWatch.Assessment.Trends;

/// <summary>What the likelihood says of a change of one shape over all dates.</summary>
/// <param name="Best">The likeliest date, as the place of its reading.</param>
/// <param name="Gain">The gain in the logarithm of the likelihood there.</param>
/// <param name="Size">The size there.</param>
/// <param name="Uncertainty">The standard uncertainty of the size, that of the date included.</param>
/// <param name="Shares">The probability of each date but for a common factor.</param>
internal sealed record ChangeProfile(int Best, double Gain, double Size, double Uncertainty, double[] Shares)
{
    private const double LateTail = 0.025;

    /// <summary>Less on the early side: the readings end where the sum of the latest signalled, which makes them look steeper than they are, above all where a ramp is slow (benchmark command <c>trend-runs</c>).</summary>
    private const double EarlyTail = 0.015;

    private ChangeSum[] Sums { get; init; } = [];

    /// <summary>Sums up a shape; null where no date can have it.</summary>
    /// <param name="sums">What the readings say of each date.</param>
    /// <param name="time">Each date's share of the time.</param>
    public static ChangeProfile? Of(ChangeSum[] sums, double[] time)
    {
        double Gain(int i) => sums[i].Weight > 0 ? sums[i].Product * sums[i].Product / (2 * sums[i].Weight) : double.NegativeInfinity;
        var best = Enumerable.Range(0, sums.Length).MaxBy(Gain);
        if (double.IsNegativeInfinity(Gain(best)))
        {
            return null;
        }

        var shares = sums.Select((sum, i) => sum.Weight > 0 ? time[i] * Math.Exp(Gain(i) - Gain(best)) * Math.Sqrt(sums[best].Weight / sum.Weight) : 0).ToArray();
        var size = sums[best].Product / sums[best].Weight;
        double variance = 0;
        for (var i = 0; i < shares.Length; i++)
        {
            if (shares[i] > 0)
            {
                var off = sums[i].Product / sums[i].Weight - size;
                variance += shares[i] * (off * off + 1 / sums[i].Weight);
            }
        }

        return new(best, Gain(best), size, Math.Sqrt(variance / shares.Sum()), shares) { Sums = sums };
    }

    /// <summary>Gives the rate of a ramp and its standard uncertainty, that of the date included, from the time that has passed since each date.</summary>
    public (double Rate, double Uncertainty) Rate(Func<int, double> span)
    {
        var rate = Size / span(Best);
        double variance = 0;
        for (var i = 0; i < Shares.Length; i++)
        {
            if (Shares[i] > 0)
            {
                var off = Sums[i].Product / Sums[i].Weight / span(i) - rate;
                variance += Shares[i] * (off * off + 1 / (Sums[i].Weight * span(i) * span(i)));
            }
        }

        return (rate, Math.Sqrt(variance / Shares.Sum()));
    }

    /// <summary>Gives the first and the last of the dates that hold 96 % of the probability, whichever the shape: with the choice of where the readings end, 95 % and a little more of real dates.</summary>
    public static (int First, int Last) Range(ChangeProfile step, ChangeProfile? ramp)
    {
        var top = Math.Max(step.Gain, ramp?.Gain ?? double.NegativeInfinity);
        var stepScale = Math.Exp(step.Gain - top);
        var rampScale = ramp is null ? 0 : Math.Exp(ramp.Gain - top);
        var shares = step.Shares.Select((share, i) => share * stepScale + (ramp?.Shares[i] ?? 0) * rampScale).ToArray();
        var total = shares.Sum();
        var (first, last) = (0, shares.Length - 1);
        for (var before = shares[0]; before <= EarlyTail * total && first < last; before += shares[first])
        {
            first++;
        }

        // From the end on; a ramp of this reading may begin as late as at the next.
        double after = 0;
        for (; last > first; last--)
        {
            after += step.Shares[last] * stepScale + (ramp?.Shares[last - 1] ?? 0) * rampScale;
            if (after > LateTail * total)
            {
                break;
            }
        }

        return (first, last);
    }
}
