using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>How a window differs from those before it, as numbers about either end of the path: what it shows of blows by itself, and what came to its orders and to its variance by sixteenths of the cycle.</summary>
/// <remarks>
/// A blow adds a push at the closest approach; what the magnet's force and the tray's own modes make of the orders was there before and falls out of the difference.
/// A supply turned up or down changes all orders in proportion, rubbing turns about at both ends, a guard and a neighbour come when they like.
/// </remarks>
internal sealed class OnsetFeatures
{
    /// <summary>How many numbers there are.</summary>
    public const int Count = WithoutTurn + OnsetTurn.Count + OnsetChange.Count;

    /// <summary>How many of them are told where rates are not low: all but what the last two make of them.</summary>
    public const int WithoutTurn = FirstRatio + (3 * Ratios) + OnsetDirections.Count + Plain;

    private const int FirstRatio = BlowFeatures.Count + BlowOrders.Count + BlowFeatures.Sectors;

    /// <summary>Orders from the second on of which it is told what came to them over what was there.</summary>
    private const int Ratios = OnsetTurn.Orders;

    private const int Plain = 12;

    /// <summary>A change below this many times what noise makes of it, and no more variance than before by <see cref="LeastVaried"/>, is none.</summary>
    private const double LeastChange = 2.5;

    private const double LeastVaried = 1.5;

    private readonly BlowOrders orders = new();
    private readonly double[] cosine = new double[Windows.WindowAnalysis.MostOrders + 1];
    private readonly double[] sine = new double[Windows.WindowAnalysis.MostOrders + 1];
    private readonly double[] varied = new double[BlowFeatures.Sectors];
    private readonly OnsetDirections directions = new();
    private readonly OnsetTurn turn = new();
    private readonly OnsetChange change = new();
    private readonly double[] turned = new double[OnsetTurn.Count];
    private readonly double[] changed = new double[ChangedOrders.Count];
    private readonly double[] ratios = new double[3 * Ratios];
    private readonly double[] plain = new double[Plain];
    private HeardBlows? heard;
    private double rate;
    private bool turnKnown;

    /// <summary>Gets what stood in the orders and what stands, of the last window that has changed: see <see cref="ChangedOrders"/>.</summary>
    public ReadOnlySpan<double> Changed => changed;

    /// <summary>Compares a window with what was before.</summary>
    /// <returns>False where nothing has changed beyond noise.</returns>
    public bool Work(OnsetPicture window, OnsetPicture before, HeardBlows now, IWindowHarmonics fit, LineHarmonics path, double rateHz)
    {
        var count = Math.Min(window.Orders, before.Orders);
        var floor = window.Floor + (before.Floor / before.Count);
        double change = 0, strongest = 0, was = 0, re = 0, im = 0;
        Array.Clear(cosine);
        Array.Clear(sine);
        (cosine[1], sine[1]) = (window.Real[1], 0);
        for (var k = 2; k <= count; k++)
        {
            var (a, b) = (window.Real[k] - before.Real[k], window.Imaginary[k] - before.Imaginary[k]);
            (cosine[k], sine[k]) = (a, -b);
            var power = (a * a) + (b * b);
            (change, strongest) = (change + power, Math.Max(strongest, power));
            was += (before.Real[k] * before.Real[k]) + (before.Imaginary[k] * before.Imaginary[k]);
            re += (a * before.Real[k]) + (b * before.Imaginary[k]);
            im += (b * before.Real[k]) - (a * before.Imaginary[k]);
        }

        double here = 0, then = 0;
        for (var s = 0; s < varied.Length; s++)
        {
            (here, then) = (here + window.Varied[s], then + before.Varied[s]);
        }

        var others = Math.Max(1, count - 1);
        if (change < LeastChange * others * floor && strongest < 4 * LeastChange * floor && here <= LeastVaried * then)
        {
            return false;
        }

        for (var s = 0; s < varied.Length; s++)
        {
            varied[s] = BlowOrders.Log(window.Varied[s], before.Varied[s]);
        }

        for (var k = 2; k < Ratios + 2; k++)
        {
            var ratio = ratios.AsSpan(3 * (k - 2), 3);
            var (a, b) = k <= count ? (cosine[k], -sine[k]) : (0, 0);
            var (power, stood) = ((a * a) + (b * b), (before.Real[k] * before.Real[k]) + (before.Imaginary[k] * before.Imaginary[k]));
            ratio[0] = BlowOrders.Log(Math.Max(power, floor), Math.Max(stood, floor));
            var scale = 1 / Math.Sqrt(Math.Max(power * stood, 1e-300));
            (ratio[1], ratio[2]) = k > count || power < 4 * floor ? (0, 0)
                : (((a * before.Real[k]) + (b * before.Imaginary[k])) * scale, ((b * before.Real[k]) - (a * before.Imaginary[k])) * scale);
        }

        directions.Work(window, before, floor);
        ChangedOrders.Fill(window, before, floor, changed);
        orders.Work(fit, new(cosine, sine, path.Direction), rateHz, floor, near: 0);
        var fundamental = window.Real[1] * window.Real[1];
        var both = Math.Sqrt(Math.Max(change * was, 1e-300));
        (plain[0], plain[1]) = (BlowOrders.Log(change, others * floor), BlowOrders.Log(change - strongest, others * floor));
        (plain[2], plain[3], plain[4]) = (BlowOrders.Log(change, was), re / both, im / both);
        (plain[5], plain[6]) = (BlowOrders.Log(window.Real[1], before.Real[1]), BlowOrders.Log(here, then));
        plain[7] = BlowOrders.Log(here / BlowFeatures.Sectors, fundamental);
        (plain[8], plain[9]) = (Math.Log10(Math.Clamp(rateHz, 1000, 6400)), window.DriveHz);
        (plain[10], plain[11]) = (BlowOrders.Log(floor, fundamental), before.Count);
        (heard, rate, turnKnown) = (now, rateHz, false);
        return true;
    }

    /// <summary>Gives the numbers about one end of the path.</summary>
    /// <param name="sign">1 for the end at which the acceleration along the line is greatest, −1 for the other.</param>
    /// <param name="into">Takes the numbers.</param>
    public void Side(int sign, Span<double> into)
    {
        (sign > 0 ? heard!.End : heard!.OtherEnd).CopyTo(into);
        var n = BlowFeatures.Count;
        n += orders.Fill(sign, into[n..]);
        var half = sign > 0 ? 0 : BlowFeatures.Sectors / 2;
        for (var s = 0; s < varied.Length; s++)
        {
            into[n++] = varied[(s + half) % varied.Length];
        }

        ratios.CopyTo(into[n..]);
        n += ratios.Length;
        directions.Fill(into[n..]);
        plain.CopyTo(into[(n + OnsetDirections.Count)..]);
        if (!TailedForest.IsLow(rate))
        {
            return;
        }

        if (!turnKnown)
        {
            FillTurn(turn, into, rate);
            into.Slice(WithoutTurn, turned.Length).CopyTo(turned);
            turnKnown = true;
        }

        turned.CopyTo(into[WithoutTurn..]);
        FillChange(change, changed, OnsetChange.Foretold(changed), sign, into);
    }

    /// <summary>Completes the numbers by those of the turn, which follow from the others and are the same about both ends.</summary>
    /// <param name="turn">Works them out.</param>
    /// <param name="numbers">All numbers.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    public static void FillTurn(OnsetTurn turn, Span<double> numbers, double rateHz)
    {
        var last = numbers.Slice(WithoutTurn - Plain, Plain);
        turn.Fill(numbers.Slice(FirstRatio, 3 * Ratios), numbers[BlowFeatures.Count..], last[5], last[10], last[9] / rateHz, numbers[WithoutTurn..]);
    }

    /// <summary>Completes the numbers by those of what was added, which need those of the turn.</summary>
    /// <param name="change">Works them out.</param>
    /// <param name="orders">The numbers of <see cref="ChangedOrders"/>.</param>
    /// <param name="foretold">Whether the windows before foretell the phase; where they do not, the turn stands for it.</param>
    /// <param name="sign">1 for the end at which the acceleration along the line is greatest, −1 for the other.</param>
    /// <param name="numbers">All numbers.</param>
    public static void FillChange(OnsetChange change, ReadOnlySpan<double> orders, bool foretold, int sign, Span<double> numbers) =>
        change.Fill(orders, foretold ? null : -numbers[WithoutTurn], sign, numbers[(WithoutTurn + OnsetTurn.Count)..]);
}
