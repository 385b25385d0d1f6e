namespace StrokeWatch.Assessment.Trends;

/// <summary>Finds the date and size of a change from a baseline by the greatest likelihood, over all splits and both shapes.</summary>
/// <remarks>
/// A change of shape r (1 after a step; the days since a ramp began as a share of all of them) gains (r′Py)²/(2 r′Pr) in the logarithm of the likelihood, y the differences from the
/// baseline's mean and P the inverse of their covariance: each reading's own variance and, shared by all, that of the mean. Dates get the probability exp(gain)/√(r′Pr), flat before in
/// date and in what the size is by now, of both shapes alike: flat in a ramp's rate, early beginnings would count for too little. Flat in date means by time, not by reading: what
/// happened while the machine stood still has a share of its own, no more than that of a day of hourly readings, or wear would never be told from work done in a stop.
/// Sources: Hinkley 1970 for the split; Smith 1975 for the probabilities.
/// </remarks>
public static class ChangeFinder
{
    /// <summary>Finds the change.</summary>
    /// <param name="readings">The readings in order of date; single wild ones are passed over.</param>
    /// <param name="mean">The baseline's mean.</param>
    /// <param name="meanUncertainty">The standard uncertainty of that mean.</param>
    /// <returns>The change; null where no reading could be used.</returns>
    public static ChangePoint? Find(IReadOnlyList<DatedReading> readings, double mean, double meanUncertainty)
    {
        var wild = WildReadings.Mark(readings);
        var used = Enumerable.Range(0, readings.Count).Where(i => !wild[i]).ToArray();
        if (used.Length == 0)
        {
            return null;
        }

        var last = readings[used[^1]].At;
        var points = used.Select(i => new Point(
            (readings[i].At - last).TotalDays, readings[i].Value - mean, 1 / (readings[i].Deviation * readings[i].Deviation))).ToArray();
        var (steps, ramps) = Sums(points, meanUncertainty * meanUncertainty);
        var (before, after) = Shares(points);
        var step = ChangeProfile.Of(steps, before)!;
        var ramp = ChangeProfile.Of(ramps, after);
        var shape = ramp is not null && ramp.Gain > step.Gain ? ChangeShape.Ramp : ChangeShape.Step;
        var best = shape == ChangeShape.Ramp ? ramp! : step;
        var (rate, rateUncertainty) = shape == ChangeShape.Ramp ? best.Rate(i => -points[i].Days) : Slope(points.AsSpan(best.Best));
        var (early, late) = ChangeProfile.Range(step, ramp);
        return new()
        {
            Shape = shape,
            Reading = used[shape == ChangeShape.Ramp ? Math.Min(best.Best + 1, used.Length - 1) : best.Best],
            At = readings[used[best.Best]].At,

            // A step lies between two readings, and a ramp may begin between two: the one before is where it may have been at the earliest, the one after at the latest.
            Earliest = readings[used[Math.Max(0, early - 1)]].At,
            Latest = readings[used[late]].At,
            MayBeOlder = early == 0,
            Size = best.Size,
            SizeUncertainty = best.Uncertainty,
            RatePerDay = rate,
            RateUncertaintyPerDay = rateUncertainty,
        };
    }

    /// <summary>Gives each reading's share of the time: for a step that since the reading before, for a ramp that until the next.</summary>
    private static (double[] Before, double[] After) Shares(Point[] points)
    {
        const double MostOfStop = 24;
        var gaps = points.Zip(points.Skip(1), (one, next) => next.Days - one.Days).ToArray();
        if (gaps.Length == 0)
        {
            return ([1], [1]);
        }

        var usual = Math.Max(1e-9, gaps.Order().ElementAt(gaps.Length / 2));
        var shares = gaps.Select(gap => Math.Clamp(gap / usual, 1e-3, MostOfStop)).ToArray();
        return ([1, .. shares], [.. shares, 1]);
    }

    /// <summary>Gives what a change whose beginning is no longer among the readings has come to: of a ramp the height of their straight line at the last one, and its rate; of a step what the readings say.</summary>
    /// <param name="told">The change as it was found when its beginning was among them.</param>
    /// <param name="readings">The readings in order of date.</param>
    /// <param name="mean">The baseline's mean.</param>
    /// <param name="meanUncertainty">The standard uncertainty of that mean.</param>
    internal static ChangePoint? Later(ChangePoint told, IReadOnlyList<DatedReading> readings, double mean, double meanUncertainty)
    {
        var found = Find(readings, mean, meanUncertainty);
        if (found is null)
        {
            return null;
        }

        var kept = found with { Shape = told.Shape, At = told.At, Earliest = told.Earliest, Latest = told.Latest, MayBeOlder = told.MayBeOlder };
        if (told.Shape != ChangeShape.Ramp)
        {
            return kept;
        }

        var wild = WildReadings.Mark(readings);
        var points = readings.Where((_, i) => !wild[i]).Select(reading =>
            new Point((reading.At - readings[^1].At).TotalDays, reading.Value - mean, 1 / (reading.Deviation * reading.Deviation))).ToArray();
        var (rate, uncertainty) = Slope(points);
        if (rate is not { } slope || uncertainty is not { } doubt)
        {
            return kept;
        }

        var weights = points.Sum(point => point.Weight);
        var middle = points.Sum(point => point.Weight * point.Days) / weights;
        return kept with
        {
            Size = points.Sum(point => point.Weight * point.Difference) / weights - slope * middle,
            SizeUncertainty = Math.Sqrt(1 / weights + doubt * doubt * middle * middle + meanUncertainty * meanUncertainty),
            RatePerDay = slope,
            RateUncertaintyPerDay = doubt,
        };
    }

    /// <summary>Gives r′Py and r′Pr of a step at each reading and of a ramp from each, both in what the size is by now.</summary>
    private static (ChangeSum[] Steps, ChangeSum[] Ramps) Sums(Point[] points, double meanVariance)
    {
        var allWeights = points.Sum(point => point.Weight);
        var allDifferences = points.Sum(point => point.Weight * point.Difference);
        var shared = meanVariance / (1 + meanVariance * allWeights);
        var (steps, ramps) = (new ChangeSum[points.Length], new ChangeSum[points.Length]);
        double weights = 0, days = 0, squares = 0, differences = 0, products = 0;
        for (var i = points.Length - 1; i >= 0; i--)
        {
            var (at, difference, weight) = points[i];
            weights += weight;
            days += weight * at;
            squares += weight * at * at;
            differences += weight * difference;
            products += weight * at * difference;
            var since = days - at * weights;
            steps[i] = new(differences - shared * weights * allDifferences, weights - shared * weights * weights);
            ramps[i] = new(products - at * differences - shared * since * allDifferences, squares - 2 * at * days + at * at * weights - shared * since * since);
        }

        // Of a ramp that begins with the last readings the weight is nothing but rounding.
        var least = 1e-9 * ramps.Max(ramp => ramp.Weight);
        for (var i = 0; i < points.Length; i++)
        {
            var span = -points[i].Days;
            ramps[i] = ramps[i].Weight > least && span > 0 ? new(ramps[i].Product / span, ramps[i].Weight / (span * span)) : default;
        }

        return (steps, ramps);
    }

    private static (double? Rate, double? Uncertainty) Slope(ReadOnlySpan<Point> after)
    {
        double weights = 0, days = 0, differences = 0;
        foreach (var point in after)
        {
            weights += point.Weight;
            days += point.Weight * point.Days;
            differences += point.Weight * point.Difference;
        }

        double products = 0, squares = 0;
        foreach (var point in after)
        {
            var off = point.Days - days / weights;
            products += point.Weight * off * (point.Difference - differences / weights);
            squares += point.Weight * off * off;
        }

        return after.Length < 3 || squares <= 0 ? (null, null) : (products / squares, 1 / Math.Sqrt(squares));
    }

    private readonly record struct Point(double Days, double Difference, double Weight);
}
