namespace StrokeWatch.Measurement.Impacts;

/// <summary>What stood in a machine's orders and what stands now, as plain numbers: all that <see cref="OnsetChange"/> is worked out from.</summary>
internal static class ChangedOrders
{
    /// <summary>How many numbers there are.</summary>
    public const int Count = Axes + (Directed * OnsetPicture.MostAxes * 4);

    /// <summary>Orders from the first on that are told along the line.</summary>
    public const int Orders = 10;

    /// <summary>Orders from the first on that are told along each axis.</summary>
    public const int Directed = 5;

    /// <summary>Where the first order's four numbers along the line begin: real and imaginary part now, and before.</summary>
    public const int Line = 4;

    /// <summary>Where it is told what noise makes of an order's power.</summary>
    public const int Floor = Line + (4 * Orders);

    /// <summary>Where the first order's four numbers along the first axis begin, after which come those along the others and then the next order's.</summary>
    public const int Axes = Floor + 2;

    /// <summary>Fills them in.</summary>
    public static void Fill(OnsetPicture window, OnsetPicture before, double floor, Span<double> into)
    {
        var (lead, count) = (before.Lead(window), Math.Min(window.Orders, before.Orders));
        into[..Count].Clear();
        (into[0], into[1], into[2], into[3]) = (lead.OfLast, lead.OfEarlier, lead.Seconds, lead.Hertz);
        (into[Floor], into[Floor + 1]) = (floor, window.Axes);
        for (var k = 1; k <= Math.Min(Orders, count); k++)
        {
            Four(into[(Line + (4 * (k - 1)))..], (window.Real[k], window.Imaginary[k]), (before.Real[k], before.Imaginary[k]));
            for (var axis = 0; axis < window.Axes && k <= Directed; axis++)
            {
                Four(into[(Axes + (4 * ((OnsetPicture.MostAxes * (k - 1)) + axis)))..], window.At(axis, k), before.At(axis, k));
            }
        }

        static void Four(Span<double> into, (double Real, double Imaginary) now, (double Real, double Imaginary) then) =>
            (into[0], into[1], into[2], into[3]) = (now.Real, now.Imaginary, then.Real, then.Imaginary);
    }
}
