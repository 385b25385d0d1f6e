namespace StrokeWatch.Assessment.Trends;

/// <summary>What the likelihood says of a change of one shape over all dates.</summary>
/// <param name="Best">The likeliest date, as the place of its reading.</param>
/// <param name="Gain">The gain in the logarithm of the likelihood there.</param>
/// <param name="Size">The size there.</param>
/// <param name="Uncertainty">The standard uncertainty of the size, that of the date included.</param>
/// <param name="Shares">The likelihood of each date, that of the likeliest being one.</param>
internal sealed record ChangeProfile(int Best, double Gain, double Size, double Uncertainty, double[] Shares)
{
    private const double Tail = 0.025;

    /// <summary>Sums up a shape; null where no date can have it.</summary>
    public static ChangeProfile? Of(ChangeSum[] sums)
    {
        // Of a ramp that begins with the last readings the weight is nothing but rounding.
        var least = 1e-9 * sums.Max(sum => sum.Weight);
        double Gain(int i) => sums[i].Weight > least ? sums[i].Product * sums[i].Product / (2 * sums[i].Weight) : double.NegativeInfinity;
        var best = Enumerable.Range(0, sums.Length).MaxBy(Gain);
        if (double.IsNegativeInfinity(Gain(best)))
        {
            return null;
        }

        var shares = sums.Select((sum, i) => sum.Weight > least ? Math.Exp(Gain(i) - Gain(best)) * Math.Sqrt(sums[best].Weight / sum.Weight) : 0).ToArray();
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

        return new(best, Gain(best), size, Math.Sqrt(variance / shares.Sum()), shares);
    }

    /// <summary>Gives the first and the last of the dates that hold 95 % of the probability, whichever the shape.</summary>
    public static (int First, int Last) Range(ChangeProfile step, ChangeProfile? ramp)
    {
        var top = Math.Max(step.Gain, ramp?.Gain ?? double.NegativeInfinity);
        var stepScale = Math.Exp(step.Gain - top);
        var rampScale = ramp is null ? 0 : Math.Exp(ramp.Gain - top);
        var shares = step.Shares.Select((share, i) => share * stepScale + (ramp?.Shares[i] ?? 0) * rampScale).ToArray();
        var total = shares.Sum();
        double before = 0;
        int first = -1, last = 0;
        for (var i = 0; i < shares.Length; i++)
        {
            last = before < (1 - Tail) * total ? i : last;
            before += shares[i];
            first = first < 0 && before > Tail * total ? i : first;
        }

        return (first, last);
    }
}
