namespace StrokeWatch.Assessment.Alarms;

/// <summary>What delays do against noise: how often an alarm counted in windows is false. Windows are taken as independent; where noise lasts over several, false alarms are more frequent.</summary>
public static class AlarmDesign
{
    /// <summary>Gives the mean number of windows until so many exceedances running, each with probability p: (1 − pⁿ)/((1 − p)pⁿ) (textbook: runs of Bernoulli trials).</summary>
    /// <param name="p">The probability that one window exceeds, above 0 and below 1.</param>
    /// <param name="running">How many must exceed running, 1 or more.</param>
    public static double MeanWindows(double p, int running)
    {
        Check(p);
        ArgumentOutOfRangeException.ThrowIfLessThan(running, 1);
        var all = Math.Pow(p, running);
        return (1 - all) / ((1 - p) * all);
    }

    /// <summary>
    /// Gives the share of time in which an alarm stands falsely, with n windows on-delay and m off-delay:
    /// pⁿS_m(q)/(pⁿS_m(q) + qᵐS_n(p)), S_k(u) = 1 + u + … + u^(k−1), q = 1 − p (Xu, Wang, Izadi and Chen, IEEE T-ASE 9(2), 2012).
    /// </summary>
    /// <param name="p">The probability that one window exceeds, above 0 and below 1.</param>
    /// <param name="on">The on-delay in windows, 1 or more.</param>
    /// <param name="off">The off-delay in windows, 1 or more.</param>
    public static double FalseShare(double p, int on, int off)
    {
        Check(p);
        ArgumentOutOfRangeException.ThrowIfLessThan(on, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(off, 1);
        var raised = Math.Pow(p, on) * Sum(1 - p, off);
        return raised / (raised + Math.Pow(1 - p, off) * Sum(p, on));
    }

    private static double Sum(double u, int terms)
    {
        var (sum, power) = (0.0, 1.0);
        for (var k = 0; k < terms; k++, power *= u)
        {
            sum += power;
        }

        return sum;
    }

    private static void Check(double p)
    {
        if (!(p is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(p), p, "A probability above 0 and below 1 is needed.");
        }
    }
}
