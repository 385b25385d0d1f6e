using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Quality;

/// <summary>
/// Finds a rail that noise has blurred: added after the limiter, or left of it by a later filter. A cut leaves orders above the third, its low harmonics stand
/// beyond the rail that is seen, and low harmonics with a flat cut explain the folded cycle where the same harmonics without one do not.
/// </summary>
/// <remarks>
/// False alarms: by the noise's own statistics the gain in χ² of two parameters must exceed <see cref="ClearGain"/> and the cut model must leave no more than noise, so
/// that noise alone never calls; a waveform that its own harmonics flatten is explained by them without a cut, at orders 3, 5 or 8, and is let go; a cut of one that has orders up to the 12th is told by harmonics up to there; the overshoot
/// must exceed one step of the converter, so that rounding does not call. What no model explains is called only at a rail that is known.
/// </remarks>
internal sealed class BlurredRail
{
    private const int LowOrders = 3;
    private const int TellingOrders = 12;
    private const int FewOrders = 9;
    private const double LeastHigh = 0.003;
    private const double NoiseMultiple = 1.4;
    private const double PeakMultiple = 4.5;
    private const double Ripple = 0.01;
    private const double ClearGain = 30;
    private const double KnownRailGain = 15;
    private const double BeyondDoubt = 80;
    private const double DeepOvershoot = 0.1;
    private const double PlainShare = 0.2;
    private const double PlainEven = 0.05;
    private const double PlainGain = 3;
    private const double NextGain = 8;
    private const double Better = 20;
    private const double LeastThird = 0.1;
    private const double HidingNoise = 0.02;
    private const double RailTolerance = 0.06;
    private const double Even = 0.3;
    private const double VeryEven = 0.1;
    private const double LeastOvershoot = 0.01;
    private const double LeastShare = 0.04;
    private const double Beyond = 8;

    /// <summary>How much more a cut may take off a cycle with strong orders above the third than its flat top tells, for each such share of the fundamental; checked by the benchmark <c>clipping</c>.</summary>
    private const double Shaped = 5;

    private const int Grid = 48;

    /// <summary>The place in <see cref="Orders"/> up to which more harmonics without a cut may explain a cycle in place of one: the highest takes part in calling only, since it bends round almost any cut.</summary>
    private const int LastChecked = 2;
    private static readonly int[] Orders = [3, 5, 8, 12];
    private static readonly double[] Circle = [.. Enumerable.Range(0, Grid).Select(i => Math.Cos(2 * Math.PI * i / Grid))];

    private readonly PhaseFold fold = new();
    private readonly FlatTop model = new();
    private readonly Plateau plateau = new();
    private bool open;
    private double amplitude, noise, high;

    /// <summary>Gets whether the cycle looked at last, though no cut was called, stays so flat at its top or bottom that a cut may have made it, and its low harmonics have not: without the range nobody can tell.</summary>
    public bool Undecided { get; private set; }

    /// <summary>Gets the most that a cut which cannot be told takes off the fundamental of the cycle looked at last, as a share of it; 0 where the range is stated, or low harmonics explain the cycle.</summary>
    public double Hidden { get; private set; }

    /// <summary>Gets how much more than off a sine a cut may take off the cycle looked at last: orders above the third make its tops narrow.</summary>
    public double Shape => amplitude > 0 ? 1 + (Shaped * Math.Sqrt(high) / amplitude) : 1;

    /// <summary>Gets or sets whether one of the last windows was cut, or left undecided.</summary>
    public bool Before { get; set; }

    /// <summary>Counts the samples of an axis at a blurred rail; 0 where there is none.</summary>
    /// <param name="values">The samples in m/s².</param>
    /// <param name="bottom">The smallest of them.</param>
    /// <param name="top">The largest of them.</param>
    /// <param name="fit">The harmonics.</param>
    /// <param name="axis">The axis.</param>
    /// <param name="fullScale">Full scale in m/s², which the rail may miss by 6 %; null where unknown.</param>
    public int Count(ReadOnlySpan<double> values, double bottom, double top, IWindowHarmonics fit, int axis, double? fullScale)
    {
        (Undecided, Hidden) = (false, 0);
        (amplitude, noise) = (Math.Sqrt(Square(fit, axis, 1)), fit.ResidualDeviation);
        if (!HasCorners(fit, axis))
        {
            return 0;
        }

        open = fullScale is null;
        var below = StandsBelowItsHarmonics(fit, axis, bottom, top, PeakMultiple * noise + Ripple * amplitude);
        if (!below && !open)
        {
            return 0;
        }

        fold.Take(values, fit.Frequency, bottom, top);
        if (!below)
        {
            return IsMoreThanLow() ? LeaveOpen() : 0;
        }

        for (var i = 0; i < Orders.Length; i++)
        {
            if (!model.Fit(fold, Orders[i]))
            {
                return i > 0 || IsMoreThanLow() ? LeaveOpen() : 0;
            }

            var known = fullScale is { } scale && Math.Abs(Math.Abs(model.Rail) / scale - 1) < RailTolerance;
            var (gain, left, usual) = (Gain(), model.Squares / fold.Variance - Freedom(Orders[i]), 4 * Math.Sqrt(2 * Freedom(Orders[i])));
            if (gain > (known ? KnownRailGain : ClearGain) && IsFlat(amplitude))
            {
                var count = (int)Math.Ceiling(model.Share * values.Length);
                var cut = left < usual + 0.1 * gain || (known && model.Unevenness < VeryEven * model.Overshoot) || IsPlain(amplitude, gain, left);
                var deep = known || gain > BeyondDoubt || (left < usual && model.Overshoot > DeepOvershoot * amplitude);
                if (cut && !IsBetterWithout(i, left))
                {
                    var called = deep || i == LastChecked || (i < LastChecked && (!model.Fit(fold, Orders[i + 1]) || Gain() > NextGain));
                    return called ? count : LeaveOpen();
                }
            }

            if (left + gain < usual)
            {
                return i == 0 ? 0 : LeaveOpen();
            }
        }

        return LeaveOpen();
    }

    /// <summary>Says whether the low harmonics alone leave more than noise, by so many standard deviations of χ².</summary>
    private bool IsMoreThanLow(double deviations = 4) => model.Uncut(fold, LowOrders) / fold.Variance - Freedom(LowOrders) > deviations * Math.Sqrt(2 * Freedom(LowOrders));

    /// <summary>Calls no cut, but says that there may be one where the range does not tell. On an axis not far louder than noise every top is flat, and more than chance must speak for a shape.</summary>
    private int LeaveOpen()
    {
        Undecided = open && plateau.MayBeCut(fold, amplitude, noise, Before) && (amplitude > Plateau.Loud * noise || IsMoreThanLow(Beyond));
        Hidden = open && !Undecided ? plateau.Hidden * Shape : 0;
        return 0;
    }

    /// <summary>Says whether more harmonics without a cut explain the cycle better than fewer with one.</summary>
    private bool IsBetterWithout(int tried, double left)
    {
        for (var i = tried + 1; i <= LastChecked && left > Better; i++)
        {
            if (model.Uncut(fold, Orders[i]) is { } squares && squares / fold.Variance - (fold.Filled - 2 * Orders[i] - 1) < left - Better)
            {
                return true;
            }
        }

        return false;
    }

    private static double Square(IWindowHarmonics fit, int axis, int order)
    {
        var (c, s) = (fit.Cosine(axis)[order], fit.Sine(axis)[order]);
        return c * c + s * s;
    }

    /// <summary>Says whether there is more above the third order than noise and than a cut that matters leaves.</summary>
    private bool HasCorners(IWindowHarmonics fit, int axis)
    {
        high = 0;
        if (amplitude < PeakMultiple * noise)
        {
            return false;
        }

        var last = Math.Min(fit.Orders, TellingOrders);
        var square = amplitude * amplitude;
        for (var k = LowOrders + 1; k <= last; k++)
        {
            high += Square(fit, axis, k);
        }

        var chance = NoiseMultiple * NoiseMultiple * 4 * noise * noise / fit.Count * (last - LowOrders);
        if (high > LeastHigh * LeastHigh * square && high > chance)
        {
            return true;
        }

        high = 0;

        // A cut at two thirds has hardly a fifth and a seventh order, which few orders or much noise hide; its third then lowers the peaks by a tenth.
        return noise > LeastHigh * amplitude
            && (last <= LowOrders + 1 || ((last < FewOrders || noise > HidingNoise * amplitude) && ThirdAtPeak(fit, axis, amplitude) < -LeastThird * amplitude));
    }

    /// <summary>Gives what the third order adds where the fundamental peaks.</summary>
    private static double ThirdAtPeak(IWindowHarmonics fit, int axis, double amplitude)
    {
        var (cos, sin) = (fit.Cosine(axis)[1] / amplitude, fit.Sine(axis)[1] / amplitude);
        return fit.Cosine(axis)[LowOrders] * cos * (4 * cos * cos - 3) + fit.Sine(axis)[LowOrders] * sin * (3 - 4 * sin * sin);
    }

    /// <summary>Says whether the low harmonics reach as far as the samples do, at the top or at the bottom: what shapes of its own leave, impacts above all, stands out beyond them.</summary>
    private static bool StandsBelowItsHarmonics(IWindowHarmonics fit, int axis, double bottom, double top, double slack)
    {
        var cosine = fit.Cosine(axis);
        var sine = fit.Sine(axis);
        double least = double.MaxValue, most = double.MinValue;
        for (var i = 0; i < Grid; i++)
        {
            var value = cosine[0];
            for (var k = 1; k <= Math.Min(LowOrders, fit.Orders); k++)
            {
                value += cosine[k] * Circle[k * i % Grid] + sine[k] * Circle[(k * i + 3 * Grid / 4) % Grid];
            }

            (least, most) = (Math.Min(least, value), Math.Max(most, value));
        }

        return top < most + slack || bottom > least - slack;
    }

    private double Freedom(int orders) => fold.Filled - 2 * orders - 2;

    private double Gain() => (model.UncutSquares - model.Squares) / fold.Variance;

    private bool IsFlat(double amplitude) =>
        model.Share > LeastShare && model.Unevenness < Even * model.Overshoot && model.Overshoot > Math.Max(fold.Quantum, LeastOvershoot * amplitude);

    /// <summary>Says whether a broad, high cut is so even that what shapes the rest of the waveform does not matter.</summary>
    private bool IsPlain(double amplitude, double gain, double left) =>
        model.Share > PlainShare && model.Unevenness < PlainEven * model.Overshoot && gain > PlainGain * Math.Max(0, left)
        && model.Overshoot > Math.Max(DeepOvershoot * amplitude, PeakMultiple * Math.Sqrt(fold.Variance));
}
