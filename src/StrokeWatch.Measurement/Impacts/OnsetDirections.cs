namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// Whether what has come to a machine's orders moves the sensor the way in which they did before. Contact acts between armature and core as the pull does: each order that it makes moves
/// the tray in the direction and with the phases between axes in which the magnet's own does. What pushes the tray from without moves it in others.
/// </summary>
internal sealed class OnsetDirections
{
    /// <summary>How many numbers there are.</summary>
    public const int Count = 8;

    private const int LastLow = 4;
    private readonly double[] numbers = new double[Count];

    /// <summary>Compares a window with what was before.</summary>
    /// <param name="window">The window.</param>
    /// <param name="before">What was before; with as many axes, two at least.</param>
    /// <param name="floor">What noise makes of the power of an order's change along an axis, in m²/s⁴.</param>
    public void Work(OnsetPicture window, OnsetPicture before, double floor)
    {
        var count = Math.Min(window.Orders, before.Orders);
        var was = before.Floor / before.Count;
        Span<double> across = [0, 0], along = [0, 0], expected = [0, 0];
        double changed = 0, stood = 0, grown = 0;
        for (var k = 2; k <= count; k++)
        {
            double d = 0, b = 0, r = 0, i = 0;
            for (var axis = 0; axis < window.Axes; axis++)
            {
                var (x, y) = window.At(axis, k);
                var (u, v) = before.At(axis, k);
                (x, y) = (x - u, y - v);
                (d, b) = (d + (x * x) + (y * y), b + (u * u) + (v * v));
                (r, i) = (r + (x * u) + (y * v), i + (y * u) - (x * v));
            }

            (changed, stood, grown) = (changed + d, stood + b, grown + r);
            var beside = Math.Min(d, ((r * r) + (i * i)) / Math.Max(b, 1e-300));
            var band = k <= LastLow ? 0 : 1;
            across[band] += d - beside;
            along[band] += beside;

            // Noise in what was before turns the direction that is asked for.
            expected[band] += (window.Axes - 1) * (floor + Math.Min(d, d * was / Math.Max(b, was)));
        }

        for (var band = 0; band < 2; band++)
        {
            numbers[3 * band] = BlowOrders.Log(across[band], expected[band]);
            numbers[(3 * band) + 1] = BlowOrders.Log(across[band] + expected[band], along[band] + expected[band]);
            numbers[(3 * band) + 2] = BlowOrders.Log(along[band], Math.Max(expected[band], floor));
        }

        // What is left where all orders are taken to have grown by one share, as by a supply that was turned up.
        var left = Math.Max(0, changed - (grown * grown / Math.Max(stood, 1e-300)));
        numbers[6] = BlowOrders.Log(left, window.Axes * Math.Max(1, count - 1) * floor);
        numbers[7] = BlowOrders.Log(left + floor, changed + floor);
    }

    /// <summary>Gives the numbers, which are the same about both ends of the path.</summary>
    public void Fill(Span<double> into) => numbers.CopyTo(into);
}
