using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// How much of a window's cycles lies on half and on third orders, against the sixths between them, where nothing that runs with the drive lies: contact in every second
/// or third cycle, told line by line.
/// </summary>
/// <remarks>
/// Cycles less their mean are told off in six classes in turn; the spectrum of the classes' means has lines at all sixths of an order. Lines above <see cref="HighestShare"/> of the
/// sampling rate are left out: there an order above half the rate may fold back onto a half or a third, and interpolation between samples has an end.
/// </remarks>
internal sealed class SubOrders
{
    /// <summary>How many numbers there are.</summary>
    public const int Count = 10;

    private const int Bins = HighCycles.Bins;
    private const int Classes = 6;
    private const int HighestOrder = 12;
    private const double HighestShare = 0.41;
    private const double MostEvidence = 50;

    /// <summary>Cosines and sines of every sixth order from 1/6 on, by bin.</summary>
    private static readonly double[] Waves = MakeWaves();

    private readonly double[] means = new double[Classes * Bins];
    private readonly double[] even = new double[Bins];
    private readonly double[] odd = new double[Bins];
    private readonly double[] power = new double[Classes * HighestOrder + 1];
    private readonly double[] numbers = new double[Count];

    /// <summary>Works a window's cycles out.</summary>
    /// <param name="rows">Cycles less their mean, one after the other.</param>
    /// <param name="count">How many.</param>
    /// <param name="samplesPerCycle">Samples in a cycle.</param>
    /// <param name="fundamental">The fundamental's power along the line, in m²/s⁴.</param>
    public void Work(ReadOnlySpan<double> rows, int count, double samplesPerCycle, double fundamental)
    {
        Array.Clear(means);
        for (var m = 0; m < count; m++)
        {
            var which = m % Classes;
            Lanes.AddWeighted(rows.Slice(m * Bins, Bins), 1.0 / (((count - 1 - which) / Classes) + 1), means.AsSpan(which * Bins, Bins));
        }

        var highest = Math.Min(Classes * HighestOrder, (int)(Classes * HighestShare * samplesPerCycle));
        for (var s = 1; s <= Classes / 2; s++)
        {
            Class(s);
            for (var sixth = s; sixth <= highest; sixth += Classes)
            {
                power[sixth] = Power(sixth, 1);
            }

            for (var sixth = Classes - s; sixth <= highest && s < Classes / 2; sixth += Classes)
            {
                power[sixth] = Power(sixth, -1);
            }
        }

        Tell(highest, fundamental);
    }

    /// <summary>Gives the numbers, which are the same about both ends of the path.</summary>
    public void Fill(Span<double> into) => numbers.CopyTo(into);

    private static double[] MakeWaves()
    {
        var waves = new double[((Classes * HighestOrder) + 1) * 2 * Bins];
        for (var sixth = 1; sixth <= Classes * HighestOrder; sixth++)
        {
            for (var bin = 0; bin < Bins; bin++)
            {
                (waves[(((2 * sixth) + 1) * Bins) + bin], waves[(2 * sixth * Bins) + bin]) = Math.SinCos(2 * Math.PI * sixth * bin / (Classes * (double)Bins));
            }
        }

        return waves;
    }

    /// <summary>Turns the classes by so many sixths of a turn each and sums them up: the real and the imaginary part.</summary>
    private void Class(int s)
    {
        Array.Clear(even);
        Array.Clear(odd);
        for (var c = 0; c < Classes; c++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * s * c / Classes);
            Lanes.AddWeighted(means.AsSpan(c * Bins, Bins), cos / Classes, even);
            Lanes.AddWeighted(means.AsSpan(c * Bins, Bins), -sin / Classes, odd);
        }
    }

    /// <summary>Gives the power of a line: of the classes turned as they are, or the other way round.</summary>
    private double Power(int sixth, int way)
    {
        var cos = Waves.AsSpan(2 * sixth * Bins, Bins);
        var sin = Waves.AsSpan(((2 * sixth) + 1) * Bins, Bins);
        var re = Lanes.Dot(even, cos) + (way * Lanes.Dot(odd, sin));
        var im = (way * Lanes.Dot(odd, cos)) - Lanes.Dot(even, sin);
        return 4 * ((re * re) + (im * im)) / (Bins * Bins);
    }

    private void Tell(int highest, double fundamental)
    {
        Span<double> ratio = [0, 0], least = [0, 0], sum = [0, 0];
        Span<int> lines = [0, 0];
        double quiet = 0;
        var quietLines = 0;
        for (var sixth = 1; sixth <= highest; sixth++)
        {
            var place = sixth % Classes;
            if (place is 1 or 5)
            {
                (quiet, quietLines) = (quiet + power[sixth], quietLines + 1);
            }

            if (place is 0 or 1 or 5)
            {
                continue;
            }

            // The sixths about it tell how loud it is here without a rhythm.
            var whole = sixth / Classes * Classes;
            double around = 0;
            var there = 0;
            foreach (var at in (ReadOnlySpan<int>)[whole - 5, whole - 1, whole + 1, whole + 5, whole + 7, whole + 11])
            {
                (around, there) = at > 0 && at <= highest ? (around + power[at], there + 1) : (around, there);
            }

            var which = place == 3 ? 0 : 1;
            var here = power[sixth] / Math.Max(around / Math.Max(1, there), 1e-300);
            (ratio[which], least[which], lines[which]) = (ratio[which] + here, Math.Max(least[which], here), lines[which] + 1);
            sum[which] += power[sixth];
        }

        for (var which = 0; which < 2; which++)
        {
            var n = Math.Max(1, lines[which]);
            var rest = Math.Max(0, ratio[which] - least[which]) / Math.Max(1, n - 1);
            numbers[5 * which] = BlowOrders.Log(ratio[which] / n, 1);
            numbers[(5 * which) + 1] = BlowOrders.Log(rest, 1);
            numbers[(5 * which) + 2] = BlowOrders.Log(sum[which], fundamental);
            numbers[(5 * which) + 3] = Math.Min(MostEvidence, -LineSignificance.LogFProbability(rest, 2.0 * Math.Max(1, n - 1), 2.0 * Math.Max(1, quietLines)));
        }

        numbers[4] = BlowOrders.Log(quiet, fundamental);
        numbers[9] = lines[1];
    }
}
