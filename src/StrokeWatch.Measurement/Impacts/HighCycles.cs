using System.Numerics;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>The cycles of a window above the low orders: a second difference of the acceleration, less what the low orders make of it, cut into cycles of 64 bins.</summary>
internal sealed class HighCycles
{
    /// <summary>Bins of a cycle.</summary>
    public const int Bins = 64;

    private const double DifferenceHz = 1600;
    private const double LowestHighHz = 300;
    private const double LeastBand = 2.5;

    /// <summary>Noughts on either side of the line.</summary>
    private const int Margin = SincCut.Reach + 2;

    private readonly LowOrderWave low = new();
    private readonly LockedCycle locked = new();
    private double[] high = [];
    private double[] rest = [];
    private double[] cycles = [];
    private double[] norms = [];
    private int lag, first, length;
    private double cycle;

    /// <summary>Gets the number of cycles.</summary>
    public int Count { get; private set; }

    /// <summary>Gets the highest order that is taken off.</summary>
    public int LowOrders { get; private set; }

    /// <summary>Gets how many orders are left between those taken off and the end of the band.</summary>
    public int OrdersLeft { get; private set; }

    /// <summary>Gets the phase of the fit's fundamental at the first bin, in radians.</summary>
    public double FirstPhase { get; private set; }

    /// <summary>Gets the root of each cycle's energy.</summary>
    public Span<double> Norms => norms.AsSpan(0, Count);

    /// <summary>Gets the line less all its orders, in m/s²; after <see cref="Refine"/>.</summary>
    public ReadOnlySpan<double> Rest => rest.AsSpan(0, length);

    /// <summary>Gets the drive in cycles a sample of <see cref="Rest"/>.</summary>
    public double RestFrequency => 1 / cycle;

    /// <summary>Gets the phase of the fit's fundamental at the first sample of <see cref="Rest"/>, in radians.</summary>
    public double RestPhase => -Math.PI * (length - 1) / cycle;

    /// <summary>Gets a cycle.</summary>
    public Span<double> this[int cycle] => cycles.AsSpan(cycle * Bins, Bins);

    /// <summary>Takes a window.</summary>
    /// <param name="line">Acceleration along the line of action, in m/s².</param>
    /// <param name="fit">The fit of the window.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    public void Take(ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics path, double rateHz)
    {
        length = line.Length;
        lag = Math.Max(1, (int)Math.Round(rateHz / (2 * DifferenceHz)));
        (LowOrders, OrdersLeft) = Band(fit.Frequency, rateHz);
        Resize();
        var values = HighPass(line, fit, path, LowOrders);
        var end = values.Length - Margin - lag;
        (first, cycle) = (Margin + lag + 1, 1 / fit.Frequency);
        FirstPhase = 2 * Math.PI * fit.Frequency * (first - Margin - (0.5 * (line.Length - 1)));
        Count = 0;
        for (double at = first; at + cycle + 2 < end; at = first + (Count * cycle))
        {
            norms[Count] = Math.Sqrt(CubicCut.Fill(values, at, cycle / Bins, cycles.AsSpan(Count * Bins, Bins)));
            Count++;
        }
    }

    /// <summary>
    /// Cuts the window taken last again, exactly: what all cycles share comes from the fitted orders, and only the rest is read between samples, so that
    /// cycles differ by what differs in them and not by where the samples happened to lie.
    /// </summary>
    /// <param name="line">Acceleration along the line of action, in m/s².</param>
    /// <param name="fit">The fit of the window.</param>
    /// <param name="path">The line's harmonics.</param>
    public void Refine(ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics path)
    {
        Leave(line, fit, path);
        var values = HighPass(rest.AsSpan(0, length), fit, path, 0);
        var highest = Math.Min(fit.Orders, Math.Min((Bins / 2) - 1, (int)(0.5 * cycle)));
        locked.Take(path, LowOrders + 1, highest, fit.Frequency, lag, FirstPhase);
        for (var m = 0; m < Count; m++)
        {
            SincCut.Fill(values, first + (m * cycle), cycle / Bins, this[m]);
            Lanes.AddWeighted(locked.Values, 1, this[m]);
            norms[m] = Math.Sqrt(RhythmLines.Square(this[m]));
        }
    }

    /// <summary>Gives the highest order that is taken off and how many are left, for a drive frequency in cycles a sample.</summary>
    public static (int Low, int Left) Band(double frequency, double rateHz)
    {
        var highest = Windows.OrderChoice.Share(rateHz) / frequency;
        var low = Math.Max(1, (int)Math.Min(Math.Round(LowestHighHz / (frequency * rateHz)), highest / LeastBand));
        return (low, Math.Min(Bins / 2, (int)highest) - low);
    }

    private void Resize()
    {
        if (high.Length < length + (2 * Margin))
        {
            (high, rest) = (new double[length + (2 * Margin)], new double[length]);
            cycles = new double[((length / 2) + 2) * Bins];
            norms = new double[(length / 2) + 2];
        }
    }

    /// <summary>Takes all orders and the mean off the line.</summary>
    private void Leave(ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics path)
    {
        var left = rest.AsSpan(0, length);
        low.Take(path.LineCosine, path.LineSine, fit.Orders, fit.Frequency, 0, length);
        line.CopyTo(left);
        Lanes.AddWeighted(low.Values, -1, left);
        var mean = Lanes.Moments(left).Mean;
        foreach (ref var value in left)
        {
            value -= mean;
        }
    }

    /// <summary>Gives the second difference less what the orders up to one make of it: with <see cref="Margin"/> noughts about it.</summary>
    private ReadOnlySpan<double> HighPass(ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics path, int highest)
    {
        low.Take(path.LineCosine, path.LineSine, Math.Min(highest, fit.Orders), fit.Frequency, lag, line.Length);
        var whole = high.AsSpan(0, line.Length + (2 * Margin));
        var span = Math.Max(0, line.Length - (2 * lag));
        whole[..(Margin + lag)].Clear();
        whole[(Margin + lag + span)..].Clear();
        if (span == 0)
        {
            return whole;
        }

        var before = line[..span];
        var here = line.Slice(lag, span);
        var after = line[(2 * lag)..];
        var known = low.Values.Slice(lag, span);
        var into = whole.Slice(Margin + lag, span);
        var half = new Vector<double>(0.5);
        var n = 0;
        for (; n <= span - Vector<double>.Count; n += Vector<double>.Count)
        {
            var sides = new Vector<double>(before[n..]) + new Vector<double>(after[n..]);
            (new Vector<double>(here[n..]) - (half * sides) - new Vector<double>(known[n..])).CopyTo(into[n..]);
        }

        for (; n < span; n++)
        {
            into[n] = here[n] - (0.5 * (before[n] + after[n])) - known[n];
        }

        return whole;
    }
}
