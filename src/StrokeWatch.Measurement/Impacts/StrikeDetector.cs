using System.Numerics;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// Hears the armature strike the core by what a strike is: a short contact, at the same phase of every cycle (or of every second or third),
/// rich in orders far above those the magnet's own force has.
/// </summary>
/// <remarks>
/// The acceleration along the line of action passes a second difference, which weighs high orders up; the low orders are taken off; what is left is cut into
/// cycles and the cycles are compared with each other. Noise, random impacts and a neighbour's vibration do not repeat with the cycle. A phase-cut supply does,
/// but its force has no step, only a kink where the current starts and ends: what it repeats lies close above the orders taken off, a contact's reaches far up.
/// </remarks>
internal sealed class StrikeDetector
{
    /// <summary>The share of the fundamental's acceleration amplitude above which the repeating peak is a contact; set on the machine model, see DEVELOPERS.md.</summary>
    internal const double PeakShare = 0.008;

    private const int Bins = 64;
    private const int LongestPeriod = 3;
    private const int FewestCycles = 9;
    private const double LowestHighHz = 300;
    private const double DifferenceHz = 1600;

    /// <summary>The repeating energy must exceed its own standard deviation under noise alone this many times; chosen by judgement, not yet tied to a measured false-alarm probability.</summary>
    private const double Significance = 6;

    private const double LeastLikeness = 0.25;
    private const double HighestShare = 0.45;
    private const int FewestLowOrders = 3;
    private const double LeastBand = 2.5;

    /// <summary>Below this the band is too narrow to tell a contact from the kinks of a phase-cut supply.</summary>
    private const double LeastHighestHz = 500;

    /// <summary>A kink's spectrum ends soon above the first order kept, a contact's goes on: the centre of a contact lies at least this many times as high.</summary>
    private const double WideShape = 1.6;

    /// <summary>Where the rate leaves little room above the first order, the share of that room which the centre must have risen.</summary>
    private const double NarrowShape = 0.36;


    private int firstOrder;
    private double leastShape;
    private double[] high = [];
    private double[] cycles = [];
    private double[] norms = [];
    private double[] sorted = [];
    private readonly double[] mean = new double[Bins];

    /// <summary>Gets the number of cycles between contacts (1, 2 or 3) of the last window judged.</summary>
    public int Period { get; private set; }

    /// <summary>Judges a window; null where the rate is too low or the window too short to tell.</summary>
    /// <param name="line">Acceleration along the line of action, in m/s².</param>
    /// <param name="fit">The fit of the window.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    /// <returns>The score: 1 is the threshold.</returns>
    public double? Judge(ReadOnlySpan<double> line, IWindowHarmonics fit, DisplacementPath path, double rateHz)
    {
        Period = 0;
        var frequency = fit.Frequency;
        if (LowOrders(frequency, rateHz) is not { } lowOrders)
        {
            return null;
        }

        firstOrder = lowOrders + 1;
        leastShape = Math.Min(WideShape, 1 + NarrowShape * (HighestShare / frequency / firstOrder - 1));
        var lag = Math.Max(1, (int)Math.Round(rateHz / (2 * DifferenceHz)));

        Resize(line.Length);
        HighPass(line, fit, path, lowOrders, lag);
        var count = CutCycles(line.Length, frequency, lag);
        if (count < FewestCycles)
        {
            return null;
        }

        LimitOutliers(count);
        var fundamental = Math.Sqrt(path.LineCosine[1] * path.LineCosine[1] + path.LineSine[1] * path.LineSine[1]);
        var best = 0.0;
        for (var period = 1; period <= LongestPeriod; period++)
        {
            for (var first = 0; first < period; first++)
            {
                var score = ClassScore(count, first, period, fundamental);
                if (score > 1.3 * best)
                {
                    (best, Period) = (score, period);
                }
            }
        }

        return best;
    }

    /// <summary>Gives the highest order that is taken off before a strike is listened for; null where the rate is too low to tell.</summary>
    /// <param name="frequency">Drive frequency in cycles a sample.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    internal static int? LowOrders(double frequency, double rateHz)
    {
        var highest = HighestShare / frequency;
        var orders = Math.Max(FewestLowOrders, (int)Math.Min(Math.Round(LowestHighHz / (frequency * rateHz)), highest / LeastBand));
        return orders + 2 > highest || HighestShare * rateHz < LeastHighestHz ? null : orders;
    }

    private void Resize(int length)
    {
        if (high.Length < length)
        {
            high = new double[length];
            cycles = new double[(length / 4 + 2) * Bins];
            norms = new double[length / 4 + 2];
            sorted = new double[length / 4 + 2];
        }
    }

    private void HighPass(ReadOnlySpan<double> line, IWindowHarmonics fit, DisplacementPath path, int lowOrders, int lag)
    {
        var origin = -0.5 * (line.Length - 1);
        var orders = Math.Min(lowOrders, fit.Orders);
        Span<Vector<double>> c = stackalloc Vector<double>[orders + 1];
        Span<Vector<double>> s = stackalloc Vector<double>[orders + 1];
        for (var k = 1; k <= orders; k++)
        {
            var gain = 1 - Math.Cos(2 * Math.PI * k * fit.Frequency * lag);
            (c[k], s[k]) = (new(gain * path.LineCosine[k]), new(gain * path.LineSine[k]));
        }

        // Two vectors side by side: Horner's sum of the low orders waits for itself, two of them need not wait for each other.
        var lanes = Vector<double>.Count;
        var (a, step) = (Turn.At(fit.Frequency, origin + lag), Turn.By(fit.Frequency, lanes));
        var b = a * step;
        step *= step;
        for (var n = lag; n < line.Length - lag; n += 2 * lanes)
        {
            Vector<double> reA = default, imA = default, reB = default, imB = default;
            for (var k = c.Length - 1; k >= 1; k--)
            {
                var (ck, sk) = (c[k], s[k]);
                (reA, imA, reB, imB) = (reA + ck, imA - sk, reB + ck, imB - sk);
                var (sineA, sineB) = (imA * a.Sin, imB * b.Sin);
                (imA, imB) = (Vector.MultiplyAddEstimate(reA, a.Sin, imA * a.Cos), Vector.MultiplyAddEstimate(reB, b.Sin, imB * b.Cos));
                (reA, reB) = (reA * a.Cos - sineA, reB * b.Cos - sineB);
            }

            Difference(line, n, lag, reA);
            Difference(line, n + lanes, lag, reB);
            (a, b) = (a * step, b * step);
        }
    }

    /// <summary>Takes the second difference of a vector of samples less the low orders, as far as samples reach.</summary>
    private void Difference(ReadOnlySpan<double> line, int n, int lag, Vector<double> low)
    {
        if (n + Vector<double>.Count + lag <= line.Length)
        {
            var sides = new Vector<double>(line[(n - lag)..]) + new Vector<double>(line[(n + lag)..]);
            (new Vector<double>(line[n..]) - new Vector<double>(0.5) * sides - low).CopyTo(high, n);
            return;
        }

        for (var i = 0; i < Vector<double>.Count && n + i < line.Length - lag; i++)
        {
            high[n + i] = line[n + i] - 0.5 * (line[n + i - lag] + line[n + i + lag]) - low[i];
        }
    }

    private int CutCycles(int length, double frequency, int lag)
    {
        var samplesPerBin = 1 / (frequency * Bins);
        var count = 0;
        for (var at = lag + 1.0; at + 1 / frequency + 2 < length - lag; at += 1 / frequency)
        {
            norms[count] = Math.Sqrt(CubicCut.Fill(high.AsSpan(0, length), at, samplesPerBin, cycles.AsSpan(count * Bins, Bins)));
            count++;
        }

        return count;
    }

    /// <summary>Scales rare loud cycles down to twice the upper quartile: one lump of material must not speak for all cycles.</summary>
    private void LimitOutliers(int count)
    {
        norms.AsSpan(0, count).CopyTo(sorted);
        sorted.AsSpan(0, count).Sort();
        var limit = 2 * sorted[(int)(0.7 * count)];
        for (var m = 0; m < count; m++)
        {
            if (norms[m] > limit)
            {
                var scale = limit / norms[m];
                var cycle = cycles.AsSpan(m * Bins, Bins);
                for (var bin = 0; bin < cycle.Length; bin++)
                {
                    cycle[bin] *= scale;
                }

                norms[m] = limit;
            }
        }
    }

    private double ClassScore(int count, int first, int period, double fundamental)
    {
        Array.Clear(mean);
        double energy = 0;
        var members = 0;
        for (var m = first; m < count; m += period)
        {
            members++;
            energy += norms[m] * norms[m];
            Lanes.AddWeighted(cycles.AsSpan(m * Bins, Bins), 1, mean);
        }

        double square = 0, peak = 0;
        for (var bin = 0; bin < Bins; bin++)
        {
            square += mean[bin] * mean[bin];
            peak = Math.Max(peak, Math.Abs(mean[bin]) / members);
        }

        if (members < 3 || energy <= 0)
        {
            return 0;
        }

        // The mean product of different cycles: what repeats, free of each cycle's own noise.
        var repeated = (square - energy) / (members * (members - 1.0));
        var own = energy / members;
        var likeness = repeated / own;
        var noise = Math.Max(own - repeated, 1e-12 * own);
        var deviation = noise * Math.Sqrt(2.0 / (members * (members - 1.0) * 0.5 * Bins));
        if (repeated <= 0)
        {
            return 0;
        }

        var level = peak * Math.Sqrt(Math.Min(1, repeated * members * members / square)) / (PeakShare * fundamental);
        var shape = Centre(count, first, period, members, repeated) / firstOrder;
        var gate = Math.Min(shape / leastShape, Math.Min(repeated / deviation / Significance, likeness / LeastLikeness));
        return gate >= 1 ? level : Math.Min(level, gate);
    }

    /// <summary>Gives the order about which the repeating energy lies: the root mean square order, from the energy of the differences between bins.</summary>
    private double Centre(int count, int first, int period, int members, double repeated)
    {
        var square = Differences(mean);
        var energy = 0.0;
        for (var m = first; m < count; m += period)
        {
            energy += Differences(cycles.AsSpan(m * Bins, Bins));
        }

        var differences = Math.Max(0, (square - energy) / (members * (members - 1.0)));
        return Bins / Math.PI * Math.Asin(Math.Min(1, 0.5 * Math.Sqrt(differences / repeated)));
    }

    /// <summary>Adds up the squared differences of neighbouring bins, the last and the first being neighbours too.</summary>
    private static double Differences(ReadOnlySpan<double> cycle)
    {
        var lanes = Vector<double>.Count;
        Vector<double> sum = default;
        var bin = 0;
        for (; bin + lanes < Bins; bin += lanes)
        {
            var difference = new Vector<double>(cycle[(bin + 1)..]) - new Vector<double>(cycle[bin..]);
            sum += difference * difference;
        }

        var total = Vector.Sum(sum);
        for (; bin < Bins; bin++)
        {
            var difference = cycle[(bin + 1) % Bins] - cycle[bin];
            total += difference * difference;
        }

        return total;
    }
}
