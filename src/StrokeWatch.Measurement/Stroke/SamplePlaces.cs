namespace StrokeWatch.Measurement.Stroke;

/// <summary>The places of a window's samples, in samples of even spacing from the middle.</summary>
internal static class SamplePlaces
{
    /// <summary>Turns stamps into places, counted from their mean; false where a sample has none.</summary>
    /// <param name="times">The stamps in seconds.</param>
    /// <param name="rateHz">The mean rate by the same clock.</param>
    /// <param name="places">Takes the places, one a stamp.</param>
    public static bool Of(ReadOnlySpan<double> times, double rateHz, Span<double> places)
    {
        if (times.Length < 2 || double.IsNaN(times[0]))
        {
            return false;
        }

        // The first stamp is taken off first: seconds since 1970 would leave no digits for the mean.
        var mean = 0.0;
        for (var n = 0; n < times.Length; n++)
        {
            places[n] = (times[n] - times[0]) * rateHz;
            mean += places[n] / times.Length;
        }

        for (var n = 0; n < times.Length; n++)
        {
            places[n] -= mean;
        }

        return double.IsFinite(mean);
    }

    /// <summary>Gives the places of samples taken as evenly spaced.</summary>
    public static void Even(Span<double> places)
    {
        for (var n = 0; n < places.Length; n++)
        {
            places[n] = n - 0.5 * (places.Length - 1);
        }
    }
}
