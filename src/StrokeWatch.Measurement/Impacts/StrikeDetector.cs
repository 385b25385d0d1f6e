using System.Numerics;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// Hears the armature strike the core by what a strike is: a short contact, at the same phase of every cycle (or of every second or third),
/// rich in orders far above those the magnet's own force has.
/// </summary>
/// <remarks>
/// The acceleration along the line of action passes a second difference, which weighs high orders up; the low orders are taken off; what is left is cut into
/// cycles, and their variance is taken apart: by the mean of all cycles, by every second, by every third (analysis of variance; Fisher's F tells how likely
/// noise alone would do it). What differs from cycle to cycle in a rhythm of two or three no healthy drive makes. What all cycles share a phase-cut supply and
/// rubbing make as well: there the spectrum must tell (<see cref="SpectrumEvidence"/>). The score is the logarithm of the false-alarm probability over that of the threshold.
/// </remarks>
internal sealed class StrikeDetector
{
    /// <summary>The false-alarm probability of one window at which a strike is called, by the distributions assumed; what was measured is in DEVELOPERS.md.</summary>
    internal const double FalseAlarm = 5e-5;

    private const int Bins = 64;
    private const int Classes = RhythmLines.Classes;
    private const int LongestPeriod = 3;
    private const int FewestCycles = 9;
    private const double LowestHighHz = 300;
    private const double DifferenceHz = 1600;
    private const double HighestShare = 0.45;
    private const int FewestLowOrders = 3;
    private const double LeastBand = 2.5;

    /// <summary>What repeats must make up so much of the cycles' energy; single knocks whose ringing reaches into the next cycle stay below.</summary>
    private const double LeastLikeness = 0.2;

    /// <summary>The same for what differs in a rhythm: chance alone gives up to a twelfth.</summary>
    private const double LeastRhythm = 0.25;

    /// <summary>Knocks whose peak is a smaller share of the fundamental's amplitude are not looked for.</summary>
    private const double LeastPeakShare = 0.003;

    /// <summary>A ratio of variances below this is no evidence of anything, and is not looked up.</summary>
    private const double FirstLook = 1.5;

    private double[] high = [];
    private double[] cycles = [];
    private double[] norms = [];
    private double[] sorted = [];
    private readonly double[] sums = new double[Classes * Bins];
    private readonly int[] members = new int[Classes];
    private readonly double[] mean = new double[Bins];
    private readonly double[] part = new double[Bins];

    /// <summary>Gets the number of cycles between contacts (1, 2 or 3) of the last window judged; 0 where there is no sign of any.</summary>
    public int Period { get; private set; }

    /// <summary>Gets how likely a window without strike would look as much like one as the last window judged, at most 1.</summary>
    public double Probability { get; private set; }

    /// <summary>Judges a window; null where the rate is too low or the window too short to tell.</summary>
    /// <param name="line">Acceleration along the line of action, in m/s².</param>
    /// <param name="fit">The fit of the window.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    /// <returns>The score: 1 is the threshold.</returns>
    public double? Judge(ReadOnlySpan<double> line, IWindowHarmonics fit, DisplacementPath path, double rateHz)
    {
        (Period, Probability) = (0, 1);
        var frequency = fit.Frequency;
        var lag = Math.Max(1, (int)Math.Round(rateHz / (2 * DifferenceHz)));
        var low = LowOrders(frequency, rateHz);
        Resize(line.Length);
        HighPass(line, fit, path, low ?? fit.Orders, lag);
        var count = CutCycles(line.Length, frequency, lag);
        if (count < FewestCycles)
        {
            return null;
        }

        LimitOutliers(count);
        var fundamental = Math.Sqrt(path.LineCosine[1] * path.LineCosine[1] + path.LineSine[1] * path.LineSine[1]);
        AddUp(count);
        var dimensions = 2 * Math.Max(2, (int)Math.Min(Bins / 2, HighestShare / frequency) - (low ?? 0));
        var worst = 0.0;
        for (var period = 2; period <= LongestPeriod; period++)
        {
            Take(period, Rhythm(count, period, dimensions, fundamental), ref worst);
        }

        if (low is not null && SpectrumEvidence.Bands(rateHz) > 0)
        {
            var locked = Locked(count, dimensions, fundamental);
            if (locked < worst)
            {
                Take(1, Math.Max(locked, SpectrumEvidence.LogFalseAlarm(path, fit, rateHz)), ref worst);
            }
        }
        else if (worst > Math.Log10(FalseAlarm))
        {
            return null;
        }

        Probability = Math.Pow(10, worst);
        return worst / Math.Log10(FalseAlarm);
    }

    /// <summary>Gives the highest order that is taken off before a strike in every cycle is listened for; null where the rate is too low to tell.</summary>
    /// <param name="frequency">Drive frequency in cycles a sample.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    internal static int? LowOrders(double frequency, double rateHz)
    {
        var highest = HighestShare / frequency;
        var orders = Math.Max(FewestLowOrders, (int)Math.Min(Math.Round(LowestHighHz / (frequency * rateHz)), highest / LeastBand));
        return orders + 2 > highest || SpectrumEvidence.Bands(rateHz) == 0 ? null : orders;
    }

    private void Take(int period, double logProbability, ref double worst)
    {
        if (logProbability < worst)
        {
            (worst, Period) = (logProbability, period);
        }
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

    /// <summary>Scales rare loud cycles down to little more than those that are loud by rhythm: one lump of material must not speak for all cycles.</summary>
    private void LimitOutliers(int count)
    {
        norms.AsSpan(0, count).CopyTo(sorted);
        sorted.AsSpan(0, count).Sort();
        var limit = 1.2 * sorted[(int)(0.7 * count)];
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

    /// <summary>Adds up the cycles of each class: six classes give every second and every third at once.</summary>
    private void AddUp(int count)
    {
        Array.Clear(sums);
        Array.Clear(members);
        for (var m = 0; m < count; m++)
        {
            Lanes.AddWeighted(cycles.AsSpan(m * Bins, Bins), 1, sums.AsSpan(m % Classes * Bins, Bins));
            members[m % Classes]++;
        }

        Array.Clear(mean);
        for (var c = 0; c < Classes; c++)
        {
            Lanes.AddWeighted(sums.AsSpan(c * Bins, Bins), 1.0 / count, mean);
        }
    }

    private double Energy(int count)
    {
        var energy = 0.0;
        for (var m = 0; m < count; m++)
        {
            energy += norms[m] * norms[m];
        }

        return energy;
    }

    /// <summary>Gives the logarithm of the probability that noise alone makes the cycles as alike as they are.</summary>
    private double Locked(int count, int dimensions, double fundamental)
    {
        double total = Energy(count), shared = count * RhythmLines.Square(mean);
        if (shared < LeastLikeness * total || RhythmLines.Peak(mean) < LeastPeakShare * fundamental)
        {
            return 0;
        }

        return LineSignificance.LogFProbability(shared * (count - 1) / Math.Max(total - shared, 1e-12 * total), dimensions, dimensions * (count - 1.0));
    }

    /// <summary>Gives the logarithm of the probability that noise alone makes every second or third cycle differ as it does, in more than one or two lines.</summary>
    private double Rhythm(int count, int period, int dimensions, double fundamental)
    {
        double between = 0, total = Energy(count) - count * RhythmLines.Square(mean), peak = 0;
        for (var first = 0; first < period; first++)
        {
            var size = 0;
            Array.Clear(part);
            for (var c = first; c < Classes; c += period)
            {
                Lanes.AddWeighted(sums.AsSpan(c * Bins, Bins), 1, part);
                size += members[c];
            }

            for (var bin = 0; bin < Bins; bin++)
            {
                part[bin] = part[bin] / size - mean[bin];
            }

            between += size * RhythmLines.Square(part);
            peak = Math.Max(peak, RhythmLines.Peak(part));
        }

        var within = Math.Max(total - between, 1e-12 * total);
        var (groups, left) = ((period - 1) * dimensions, (double)(count - period) * dimensions);
        var ratio = between / groups / (within / left);
        if (ratio < FirstLook || between < LeastRhythm * total || peak < LeastPeakShare * fundamental)
        {
            return 0;
        }

        // A neighbour's tone may happen to lie on a half or third order: without the strongest lines the rest must still speak.
        var strongest = RhythmLines.Strongest(sums, Bins, period, count);
        var rest = Math.Max(0, between - strongest);
        return Math.Max(
            LineSignificance.LogFProbability(ratio, groups, left),
            LineSignificance.LogFProbability(rest / Math.Max(1, groups - 4) / (within / left), Math.Max(1, groups - 4), left));
    }
}
