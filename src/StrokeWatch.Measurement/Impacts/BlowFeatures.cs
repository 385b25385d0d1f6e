using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// What a window shows of blows at the closest approach of armature and core, as numbers that do not depend on the machine's size: where in the cycle its high
/// frequencies are loud and vary, how level its orders are and how far they point at that moment, and how cycles differ.
/// </summary>
/// <remarks>
/// At the closest approach the tray is at one end of its path: a blow pushes it the way its acceleration already points, so that about that moment every order that
/// the blow makes is positive. Which end it is no signal tells; both are asked (<see cref="Side"/>). Kinks of a phase-cut force lie on the flanks of the pull, friction
/// turns about at both ends, a guard and falling pieces come when they like.
/// </remarks>
internal sealed class BlowFeatures
{
    /// <summary>How many numbers there are.</summary>
    public const int Count = 113 + DifferingCycles.Count + Innovations.Count;

    /// <summary>Parts of a cycle in which variance is told apart.</summary>
    public const int Sectors = 16;
    private const int BinsPerCycle = HighCycles.Bins;

    private readonly double[] energy = new double[BinsPerCycle];
    private readonly double[] mean = new double[BinsPerCycle];
    private readonly double[] variance = new double[BinsPerCycle];
    private readonly int[] sector = new int[BinsPerCycle];
    private readonly double[] shared = new double[Sectors];
    private readonly double[] varied = new double[Sectors];
    private readonly double[] signed = new double[Sectors];
    private readonly double[] lowest = new double[Sectors];
    private double[] parts = [];
    private double[] sorted = [];
    private readonly double[] plain = new double[16];
    private readonly BlowOrders orders = new();
    private readonly DifferingCycles differing = new();
    private readonly Innovations innovations = new();
    private double near;
    private double fundamentalPower;
    private int cycles;

    /// <summary>Gets the mean cycle.</summary>
    public ReadOnlySpan<double> Mean => mean;

    /// <summary>Gets the variance of the cycles by phase, loudest over quietest sixteenth.</summary>
    public double Unevenness { get; private set; }

    /// <summary>Works a window's cycles out: mean and variance by phase.</summary>
    /// <param name="window">The cycles.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="variedInto">Takes the variance by sixteenths of the cycle.</param>
    public void Take(HighCycles window, LineHarmonics path, Span<double> variedInto)
    {
        cycles = window.Count;
        Array.Clear(mean);
        Array.Clear(energy);
        for (var m = 0; m < cycles; m++)
        {
            Lanes.AddWeighted(window[m], 1.0 / cycles, mean);
            Lanes.AddSquares(window[m], energy);
        }

        near = Math.Atan2(path.LineSine[1], path.LineCosine[1]);
        var first = ((window.FirstPhase - near) / (2 * Math.PI) * Sectors) + 0.5;
        Array.Clear(varied);
        Span<int> members = stackalloc int[Sectors];
        members.Clear();
        for (var bin = 0; bin < BinsPerCycle; bin++)
        {
            variance[bin] = Math.Max(0, (energy[bin] / cycles) - (mean[bin] * mean[bin]));
            var at = first + (bin * (double)Sectors / BinsPerCycle);
            sector[bin] = (int)(at - (Math.Floor(at / Sectors) * Sectors)) % Sectors;
            varied[sector[bin]] += variance[bin];
            members[sector[bin]]++;
        }

        double most = 0, least = double.PositiveInfinity;
        for (var s = 0; s < Sectors; s++)
        {
            varied[s] /= members[s];
            (most, least) = (Math.Max(most, varied[s]), Math.Min(least, varied[s]));
        }

        varied.CopyTo(variedInto);
        Unevenness = most / Math.Max(least, 1e-300);
    }

    /// <summary>Works out what both ends of the path share; after <see cref="Take"/>.</summary>
    /// <param name="window">The cycles.</param>
    /// <param name="fit">The fit.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    /// <param name="evidence">Minus the common logarithms of the probabilities that chance makes all cycles, every second, every third alike.</param>
    public void Work(HighCycles window, IWindowHarmonics fit, LineHarmonics path, double rateHz, (double Locked, double Second, double Third) evidence)
    {
        var hertz = fit.Frequency * rateHz;
        var fundamental = BlowOrders.Power(path, 1);
        fundamentalPower = fundamental;
        var floor = Math.Max(2 * fit.ResidualDeviation * fit.ResidualDeviation * fit.CoefficientShare, 1e-12 * fundamental);
        orders.Work(fit, path, rateHz, floor, near);
        WorkSectors(window);
        varied.CopyTo(lowest, 0);
        lowest.AsSpan().Sort();
        var quietest = (lowest[0] + lowest[1] + lowest[2] + lowest[3]) / 4;
        differing.Work(window, mean, sector, 1 / fit.Frequency, quietest, fundamental);
        innovations.Work(window.Rest, window.RestFrequency, window.RestPhase - near, fundamental);
        double total = RhythmLines.Square(mean), spread = Sum(variance);
        plain[0] = BlowOrders.Log(total, spread);
        plain[1] = BlowOrders.Log(total / BinsPerCycle, fundamental);
        plain[2] = BlowOrders.Log(spread / BinsPerCycle, fundamental);
        plain[3] = BlowOrders.Log(spread / BinsPerCycle, quietest);
        CycleLoudness.Work(window.Norms, plain.AsSpan(4, 5));
        (plain[9], plain[10], plain[11]) = (Math.Min(50, evidence.Locked), Math.Min(50, evidence.Second), Math.Min(50, evidence.Third));
        plain[12] = Math.Log10(Math.Clamp(rateHz, 1000, 6400));
        plain[13] = hertz;
        plain[14] = BlowOrders.Log(floor, fundamental);
        plain[15] = cycles;
    }

    /// <summary>Gives the numbers about one end of the path.</summary>
    /// <param name="sign">1 for the end at which the acceleration along the line is greatest, −1 for the other.</param>
    /// <param name="into">Takes the numbers.</param>
    public void Side(int sign, Span<double> into)
    {
        var half = sign > 0 ? 0 : Sectors / 2;
        var n = orders.Fill(sign, into);
        double sharedMean = Sum(shared) / Sectors, variedMean = Sum(varied) / Sectors;
        for (var s = 0; s < Sectors; s++)
        {
            into[n++] = Math.Log10((shared[(s + half) % Sectors] / Math.Max(sharedMean, 1e-300)) + 1e-3);
        }

        for (var s = 0; s < Sectors; s++)
        {
            into[n++] = Math.Log10((varied[(s + half) % Sectors] / Math.Max(variedMean, 1e-300)) + 1e-3);
        }

        n = Circular(shared, half, into, n);
        n = Circular(varied, half, into, n);
        var root = Math.Sqrt(Math.Max(4 * RhythmLines.Square(mean), 1e-300));
        for (var s = Sectors - 1; s < Sectors + 3; s++)
        {
            into[n++] = sign * signed[(s + half) % Sectors] / root;
        }

        n = Moments(sign, into, n);
        n = Bursts(half, into, n);
        n = differing.Fill(half, into, n);
        n = innovations.Fill(half, into, n);
        plain.CopyTo(into[n..]);
    }

    private static double Sum(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value;
        }

        return sum;
    }

    private void WorkSectors(HighCycles window)
    {
        Array.Clear(shared);
        Array.Clear(signed);
        Span<int> members = stackalloc int[Sectors];
        members.Clear();
        if (parts.Length < cycles * Sectors)
        {
            parts = new double[cycles * Sectors * 2];
            sorted = new double[cycles * 2];
        }

        for (var bin = 0; bin < BinsPerCycle; bin++)
        {
            shared[sector[bin]] += mean[bin] * mean[bin];
            signed[sector[bin]] += mean[bin];
            members[sector[bin]]++;
        }

        for (var s = 0; s < Sectors; s++)
        {
            shared[s] /= members[s];

            // What noise alone leaves in the mean is taken off, but for a fiftieth.
            shared[s] = Math.Max(shared[s] - (varied[s] / cycles), 0.02 * shared[s]);
        }

        parts.AsSpan(0, cycles * Sectors).Clear();
        for (var m = 0; m < cycles; m++)
        {
            var cycle = window[m];
            var part = parts.AsSpan(m * Sectors, Sectors);
            for (var bin = 0; bin < BinsPerCycle; bin++)
            {
                part[sector[bin]] += cycle[bin] * cycle[bin];
            }
        }
    }

    internal static int Circular(double[] values, int half, Span<double> into, int n)
    {
        for (var order = 1; order <= 2; order++)
        {
            double re = 0, im = 0;
            for (var s = 0; s < Sectors; s++)
            {
                var (sin, cos) = Math.SinCos(2 * Math.PI * order * s / Sectors);
                re += values[(s + half) % Sectors] * cos;
                im += values[(s + half) % Sectors] * sin;
            }

            var sum = Math.Max(Sum(values), 1e-300);
            into[n++] = re / sum;
            into[n++] = im / sum;
        }

        return n;
    }

    private int Moments(int sign, Span<double> into, int n)
    {
        double squares = 0, cubes = 0, fourths = 0;
        foreach (var value in mean)
        {
            var square = value * value;
            (squares, cubes, fourths) = (squares + square, cubes + (square * value), fourths + (square * square));
        }

        squares = Math.Max(squares / BinsPerCycle, 1e-300);
        into[n++] = sign * cubes / BinsPerCycle / Math.Pow(squares, 1.5);
        into[n++] = fourths / BinsPerCycle / (squares * squares);
        return n;
    }

    /// <summary>Gives how loud cycles are just after the closest approach, against the usual loudness opposite to it.</summary>
    private int Bursts(int half, Span<double> into, int n)
    {
        var row = sorted.AsSpan(0, cycles);
        for (var m = 0; m < cycles; m++)
        {
            var far = 0.0;
            for (var s = 6; s <= 10; s++)
            {
                far += parts[(m * Sectors) + ((s + half) % Sectors)];
            }

            row[m] = far / 20;
        }

        row.Sort();
        var (middle, loud) = (Math.Max(row[cycles / 2], 1e-300), row[(int)(0.9 * (cycles - 1))]);
        for (var m = 0; m < cycles; m++)
        {
            row[m] = (parts[(m * Sectors) + half] + parts[(m * Sectors) + half + 1]) / 8;
        }

        row.Sort();
        for (var tenth = 1; tenth <= 9; tenth += 2)
        {
            into[n++] = Math.Log10((row[(int)(0.1 * tenth * (cycles - 1))] / middle) + 1e-3);
        }

        into[n++] = BlowOrders.Log(middle, fundamentalPower);
        into[n++] = BlowOrders.Log(loud, middle);
        return n;
    }
}
