using System.Numerics;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>The fundamental in each of eight parts of a window, as its deviation from the fit of the whole.</summary>
internal sealed class PartFit
{
    /// <summary>The parts into which a window is cut; a whole number of vectors on every processor.</summary>
    public const int Parts = 8;

    private readonly int axes;
    private readonly double[][] cosine;
    private readonly double[][] sine;
    private readonly double[] longer = new double[Parts];
    private readonly double[] lengths = new double[Parts];
    private readonly double[] middles = new double[Parts];
    private readonly double[] turnCos = new double[Parts];
    private readonly double[] turnSin = new double[Parts];
    private readonly double[] shortSums;
    private readonly double[] longSums;
    private int shortest;
    private double frequency;

    /// <summary>Makes the parts for a number of axes and a largest order.</summary>
    public PartFit(int axes, int largestOrder)
    {
        this.axes = axes;
        cosine = [.. Enumerable.Range(0, axes).Select(_ => new double[Parts])];
        sine = [.. Enumerable.Range(0, axes).Select(_ => new double[Parts])];
        shortSums = new double[largestOrder + 2];
        longSums = new double[largestOrder + 2];
    }

    /// <summary>Gives the deviation of an axis's cosine and sine amplitude in a part from that of the whole window.</summary>
    public (double Cosine, double Sine) Deviation(int axis, int part) => (cosine[axis][part], sine[axis][part]);

    /// <summary>Correlates each part with the fundamental, about the part's own middle.</summary>
    public void Correlate(double[][] samples, int start, int count, double cyclesPerSample, ReadOnlySpan<double> means)
    {
        frequency = cyclesPerSample;
        shortest = count / Parts;
        Dirichlet.Cosines(frequency, shortest, shortSums);
        Dirichlet.Cosines(frequency, shortest + 1, longSums);
        var ofShort = new PartTurns(frequency, shortest);
        var ofLong = new PartTurns(frequency, shortest + 1);
        for (var part = 0; part < Parts; part++)
        {
            var first = (int)((long)count * part / Parts);
            var next = (int)((long)count * (part + 1) / Parts);
            var length = next - first;
            (lengths[part], longer[part]) = (length, length - shortest);
            middles[part] = first + 0.5 * (length - 1) - 0.5 * (count - 1);
            (turnSin[part], turnCos[part]) = Math.SinCos(2 * Math.PI * frequency * middles[part]);
            var turns = length > shortest ? ofLong : ofShort;
            var flat = (length > shortest ? longSums : shortSums)[1];
            for (var a = 0; a < axes; a += 3)
            {
                var (b, c) = (Math.Min(a + 1, axes - 1), Math.Min(a + 2, axes - 1));
                var (re, im) = turns.Correlate(
                    samples[a].AsSpan(start + first, length), samples[b].AsSpan(start + first, length), samples[c].AsSpan(start + first, length));
                (cosine[c][part], sine[c][part]) = (re.Z - means[c] * flat, im.Z);
                (cosine[b][part], sine[b][part]) = (re.Y - means[b] * flat, im.Y);
                (cosine[a][part], sine[a][part]) = (re.X - means[a] * flat, im.X);
            }
        }
    }

    /// <summary>Turns each part's correlation into the fundamental's deviation from the fit there.</summary>
    /// <param name="fitCosine">The fit's cosine amplitudes: one array an axis, index the order.</param>
    /// <param name="fitSine">Its sine amplitudes likewise.</param>
    /// <param name="means">The means that were taken off before the fit.</param>
    /// <param name="orders">The highest order fitted.</param>
    public void Compare(double[][] fitCosine, double[][] fitSine, ReadOnlySpan<double> means, int orders)
    {
        var lanes = Vector<double>.Count;
        for (var p = 0; p < Parts; p += lanes)
        {
            var isLonger = new Vector<double>(longer, p);
            var (cos, sin) = (new Vector<double>(turnCos, p), new Vector<double>(turnSin, p));
            var scale = new Vector<double>(2) / new Vector<double>(lengths, p);
            for (var a = 0; a < axes; a++)
            {
                var (before, at) = (Sums(0, isLonger), Sums(1, isLonger));
                var re = new Vector<double>(cosine[a], p) - (fitCosine[a][0] - means[a]) * at;
                var im = new Vector<double>(sine[a], p);
                var (kCos, kSin) = (cos, sin);
                for (var k = 1; k <= orders; k++)
                {
                    var after = Sums(k + 1, isLonger);
                    var (c, s) = (0.5 * fitCosine[a][k], 0.5 * fitSine[a][k]);
                    re -= (c * kCos + s * kSin) * (before + after);
                    im -= (s * kCos - c * kSin) * (before - after);
                    (kCos, kSin) = (kCos * cos - kSin * sin, kSin * cos + kCos * sin);
                    (before, at) = (at, after);
                }

                (re, im) = (re * scale, im * scale);
                (re * cos - im * sin).CopyTo(cosine[a], p);
                (im * cos + re * sin).CopyTo(sine[a], p);
            }
        }
    }

    /// <summary>Gives the change of frequency, in cycles a sample, that the phase through the parts tells.</summary>
    /// <param name="fitCosine">The fit's cosine amplitudes: one array an axis, index the order.</param>
    /// <param name="fitSine">Its sine amplitudes likewise.</param>
    public double FrequencyStep(double[][] fitCosine, double[][] fitSine)
    {
        double power = 0, slope = 0, spread = 0;
        for (var a = 0; a < axes; a++)
        {
            power += fitCosine[a][1] * fitCosine[a][1] + fitSine[a][1] * fitSine[a][1];
        }

        for (var part = 0; part < Parts; part++)
        {
            var turn = 0.0;
            for (var a = 0; a < axes; a++)
            {
                turn += fitCosine[a][1] * sine[a][part] - fitSine[a][1] * cosine[a][part];
            }

            // c cos φ + s sin φ lags by atan2(s, c): a growing lag is a lower frequency.
            slope -= lengths[part] * middles[part] * turn;
            spread += lengths[part] * middles[part] * middles[part];
        }

        return power > 0 ? slope / (power * spread * 2 * Math.PI) : 0;
    }

    private Vector<double> Sums(int order, Vector<double> isLonger) =>
        new Vector<double>(shortSums[order]) + isLonger * (longSums[order] - shortSums[order]);
}
