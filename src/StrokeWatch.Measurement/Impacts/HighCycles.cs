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
    private const double HighestShare = 0.45;
    private const double LeastBand = 2.5;
    private readonly LowOrderWave low = new();
    private double[] high = [];
    private double[] cycles = [];
    private double[] norms = [];

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

    /// <summary>Gets a cycle.</summary>
    public Span<double> this[int cycle] => cycles.AsSpan(cycle * Bins, Bins);

    /// <summary>Takes a window.</summary>
    /// <param name="line">Acceleration along the line of action, in m/s².</param>
    /// <param name="fit">The fit of the window.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    public void Take(ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics path, double rateHz)
    {
        var lag = Math.Max(1, (int)Math.Round(rateHz / (2 * DifferenceHz)));
        (LowOrders, OrdersLeft) = Band(fit.Frequency, rateHz);
        FirstPhase = 2 * Math.PI * fit.Frequency * (lag + 1.0 - (0.5 * (line.Length - 1)));
        Resize(line.Length);
        HighPass(line, fit, path, LowOrders, lag);
        Cut(line.Length, fit.Frequency, lag);
    }

    /// <summary>Gives the highest order that is taken off and how many are left, for a drive frequency in cycles a sample.</summary>
    public static (int Low, int Left) Band(double frequency, double rateHz)
    {
        var highest = HighestShare / frequency;
        var low = Math.Max(1, (int)Math.Min(Math.Round(LowestHighHz / (frequency * rateHz)), highest / LeastBand));
        return (low, Math.Min(Bins / 2, (int)highest) - low);
    }

    private void Resize(int length)
    {
        if (high.Length < length)
        {
            high = new double[length];
            cycles = new double[(length / 2 + 2) * Bins];
            norms = new double[length / 2 + 2];
        }
    }

    private void HighPass(ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics path, int lowOrders, int lag)
    {
        var orders = Math.Min(lowOrders, fit.Orders);
        low.Take(path.LineCosine, path.LineSine, orders, fit.Frequency, lag, line.Length);
        var span = line.Length - (2 * lag);
        if (span <= 0)
        {
            return;
        }

        var before = line[..span];
        var here = line.Slice(lag, span);
        var after = line[(2 * lag)..];
        var known = low.Values.Slice(lag, span);
        var into = high.AsSpan(lag, span);
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
    }

    private void Cut(int length, double frequency, int lag)
    {
        var samplesPerBin = 1 / (frequency * Bins);
        var count = 0;
        for (var at = lag + 1.0; at + 1 / frequency + 2 < length - lag; at += 1 / frequency)
        {
            norms[count] = Math.Sqrt(CubicCut.Fill(high.AsSpan(0, length), at, samplesPerBin, cycles.AsSpan(count * Bins, Bins)));
            count++;
        }

        Count = count;
    }
}
