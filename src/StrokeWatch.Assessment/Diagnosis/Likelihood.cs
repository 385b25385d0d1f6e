namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>How much likelier a symptom's deviation is where a cause changes the symptom than where nothing does, as a natural logarithm.</summary>
/// <remarks>
/// A healthy symptom deviates as Student's t with <see cref="Freedom"/> degrees of freedom (few readings teach what healthy is, and their spread has tails).
/// Where a cause moves it, by how much is not known: from <see cref="Least"/> to <see cref="Most"/> of its own spreads, each doubling as likely as the next.
/// </remarks>
internal static class Likelihood
{
    private const double Freedom = 6;

    /// <summary>How often what may move does not.</summary>
    private const double Usually = 0.8;

    private const double Least = 1;
    private const double Most = 100;
    private const int Steps = 160;

    /// <summary>Beyond this a deviation says no more.</summary>
    private const double Farthest = 60;

    /// <summary>Neither a lone wild reading nor a lone perfect match says more than this.</summary>
    private const double Limit = 14;

    /// <summary>Gives ln p(deviation | change) − ln p(deviation | same).</summary>
    /// <param name="change">What the cause does.</param>
    /// <param name="deviation">The symptom's deviation from healthy in its own standard deviations.</param>
    public static double LogRatio(Change change, double deviation)
    {
        deviation = Math.Clamp(deviation, -Farthest, Farthest);
        var same = Density(deviation);
        var likely = change switch
        {
            Change.Same => same,
            Change.Rises => Moved(deviation),
            Change.Falls => Moved(-deviation),
            Change.Moves => 0.5 * (Moved(deviation) + Moved(-deviation)),
            Change.MayRise => Usually * same + (1 - Usually) * Moved(deviation),
            Change.MayFall => Usually * same + (1 - Usually) * Moved(-deviation),
            Change.MayMove => Usually * same + 0.5 * (1 - Usually) * (Moved(deviation) + Moved(-deviation)),
            _ => same,
        };
        return Math.Clamp(Math.Log(likely / same), -Limit, Limit);
    }

    /// <summary>Gives Student's density, without the constant that cancels.</summary>
    private static double Density(double deviation) => Math.Pow(1 + deviation * deviation / Freedom, -0.5 * (Freedom + 1));

    private static double Moved(double deviation)
    {
        var sum = 0.0;
        for (var i = 0; i < Steps; i++)
        {
            sum += Density(deviation - Least * Math.Pow(Most / Least, (i + 0.5) / Steps));
        }

        return sum / Steps;
    }
}
