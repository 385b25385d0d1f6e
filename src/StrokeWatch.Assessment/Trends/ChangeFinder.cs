namespace StrokeWatch.Assessment.Trends;

/// <summary>Finds the date and size of a change from a known mean by the greatest likelihood, over all splits and both shapes.</summary>
/// <remarks>
/// A step after reading t gains S²/(2W) in the logarithm of the likelihood, S and W the weighted sum of differences and the sum of weights since; a ramp from t
/// gains the same with each difference and weight multiplied by the days since t, once and twice. Dates get the probability exp(gain)/√W (flat prior of date and size).
/// Sources: Hinkley 1970 for the split; Smith 1975 for the probabilities.
/// </remarks>
public static class ChangeFinder
{
    private const double Tail = 0.025;

    /// <summary>Finds the change.</summary>
    /// <param name="readings">At least two readings in order of date; single wild ones are passed over.</param>
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
        var step = Profile.Of(points, Steps(points));
        var ramp = Profile.Of(points, Ramps(points));
        var shape = ramp is not null && (step is null || ramp.Gain > step.Gain) ? ChangeShape.Ramp : ChangeShape.Step;
        if ((shape == ChangeShape.Ramp ? ramp : step) is not { } best)
        {
            return null;
        }

        var span = shape == ChangeShape.Ramp ? -points[best.Best].Days : 1;
        var after = points.AsSpan(best.Best);
        var (rate, rateUncertainty) = shape == ChangeShape.Ramp ? (best.Size, best.Uncertainty) : Slope(after);

        // A step lies between two readings; how far back is told by the reading before.
        var first = shape == ChangeShape.Ramp ? best.First : Math.Max(0, best.First - 1);
        return new()
        {
            Shape = shape,
            Reading = used[shape == ChangeShape.Ramp ? Math.Min(best.Best + 1, used.Length - 1) : best.Best],
            At = readings[used[best.Best]].At,
            Earliest = readings[used[first]].At,
            Latest = readings[used[best.Last]].At,
            Size = best.Size * span,
            SizeUncertainty = Math.Sqrt(best.Uncertainty * span * best.Uncertainty * span + meanUncertainty * meanUncertainty),
            RatePerDay = rate,
            RateUncertaintyPerDay = rateUncertainty,
        };
    }

    private static (double Sum, double Weight)[] Steps(Point[] points)
    {
        var sums = new (double Sum, double Weight)[points.Length];
        double sum = 0, weight = 0;
        for (var i = points.Length - 1; i >= 0; i--)
        {
            sum += points[i].Weight * points[i].Difference;
            weight += points[i].Weight;
            sums[i] = (sum, weight);
        }

        return sums;
    }

    private static (double Sum, double Weight)[] Ramps(Point[] points)
    {
        var sums = new (double Sum, double Weight)[points.Length];
        double weights = 0, days = 0, squares = 0, differences = 0, products = 0;
        for (var i = points.Length - 1; i >= 0; i--)
        {
            var (at, difference, weight) = points[i];
            weights += weight;
            days += weight * at;
            squares += weight * at * at;
            differences += weight * difference;
            products += weight * at * difference;
            sums[i] = (products - at * differences, squares - 2 * at * days + at * at * weights);
        }

        return sums;
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

    /// <summary>What the likelihood says over all splits of one shape.</summary>
    private sealed record Profile(int Best, int First, int Last, double Gain, double Size, double Uncertainty)
    {
        public static Profile? Of(Point[] points, (double Sum, double Weight)[] sums)
        {
            // The last readings of a ramp that begins with them tell nothing: rounding is all that their weight holds.
            var least = 1e-9 * sums.Max(part => part.Weight);
            double Gain(int i) => sums[i].Weight > least ? sums[i].Sum * sums[i].Sum / (2 * sums[i].Weight) : double.NegativeInfinity;
            var best = -1;
            for (var i = 0; i < points.Length; i++)
            {
                best = double.IsFinite(Gain(i)) && (best < 0 || Gain(i) > Gain(best)) ? i : best;
            }

            if (best < 0)
            {
                return null;
            }

            var shares = sums.Select((part, i) => double.IsFinite(Gain(i)) ? Math.Exp(Gain(i) - Gain(best)) / Math.Sqrt(part.Weight / sums[best].Weight) : 0).ToArray();
            var total = shares.Sum();
            var size = sums[best].Sum / sums[best].Weight;
            double variance = 0, before = 0;
            int first = -1, last = 0;
            for (var i = 0; i < shares.Length; i++)
            {
                if (shares[i] <= 0)
                {
                    continue;
                }

                var share = shares[i] / total;
                var off = sums[i].Sum / sums[i].Weight - size;
                variance += share * (off * off + 1 / sums[i].Weight);
                first = first < 0 && before + share > Tail ? i : first;
                last = before < 1 - Tail ? i : last;
                before += share;
            }

            return new(best, Math.Max(first, 0), last, Gain(best), size, Math.Sqrt(variance));
        }
    }
}
