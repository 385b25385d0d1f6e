namespace StrokeWatch.Measurement.Supply;

/// <summary>Finds in a voltage of known frequency where in the cycle it is there and where it is cut off. Nothing is allocated a window.</summary>
/// <remarks>
/// The pieces that are there are pieces of one sine, the mains'. Each sample is put to that sine or to zero, whichever is nearer, where the two lie apart; the cycle is folded, and
/// where zero gives way to the sine the switch fires. A current that flows on past the zero of the voltage keeps the switch closed, so that an inductive coil shows no cut before 90°.
/// </remarks>
internal sealed class Conduction
{
    private const int Bins = 360;

    /// <summary>A shorter gap is an edge of noise, not a cut.</summary>
    private const int ShortestGap = 6;

    private const double PresentShare = 0.08;
    private const double DecidedShare = 0.15;
    private const double DecidedNoises = 6;
    private const double LargestResidual = 0.25;
    private const int FewestSamples = 24;

    private readonly int[] on = new int[Bins], off = new int[Bins];

    /// <summary>Gets the share of the cycle with voltage; null where the voltage is not a sine, cut or whole.</summary>
    public double? Share { get; private set; }

    /// <summary>Gets the firing angle in degrees; null where nothing is cut off.</summary>
    public double? FiringDegrees { get; private set; }

    /// <summary>Gets the half-width in degrees within which the firing angle lies.</summary>
    public double HalfWidthDegrees { get; private set; }

    /// <summary>Gets the amplitude of the mains' sine through the pieces that are there.</summary>
    public double MainsAmplitude { get; private set; }

    /// <summary>Gets the phase in radians of the mains' sine, written as sin(x + φ), through the pieces that are there.</summary>
    public double MainsPhase { get; private set; }

    /// <summary>Reads a window.</summary>
    /// <param name="values">The voltages.</param>
    /// <param name="cos">cos x of each sample at the supply's frequency.</param>
    /// <param name="sin">sin x of each.</param>
    /// <param name="turns">x of each in whole turns.</param>
    public void Read(ReadOnlySpan<double> values, ReadOnlySpan<double> cos, ReadOnlySpan<double> sin, ReadOnlySpan<double> turns)
    {
        (Share, FiringDegrees) = (null, null);
        var most = 0.0;
        foreach (var value in values)
        {
            most = Math.Max(most, Math.Abs(value));
        }

        var sine = Pieces(values, cos, sin, 0, 0, PresentShare * most);
        if (sine is { } first)
        {
            // What is fitted first holds rounded edges as well, and the more the later the switch fires: its residual says nothing yet of the noise.
            sine = Pieces(values, cos, sin, first.A, first.B, DecidedShare * first.Amplitude);
        }

        if (sine is not { } mains || mains.Noise > LargestResidual * mains.Amplitude)
        {
            return;
        }

        (MainsPhase, MainsAmplitude) = (Math.Atan2(mains.A, mains.B), mains.Amplitude);
        Fold(values, cos, sin, turns, mains);
        Walk();
    }

    private static double Decided(in Piece sine) => Math.Max(DecidedShare * sine.Amplitude, DecidedNoises * sine.Noise);

    /// <summary>
    /// Fits the sine through the samples that are there: those beyond a least size, or nearer to a sine known already than to zero. Their neighbours must be there as well, for a
    /// recorder's own filter rounds the edges of a cut.
    /// </summary>
    private static Piece? Pieces(ReadOnlySpan<double> values, ReadOnlySpan<double> cos, ReadOnlySpan<double> sin, double a, double b, double least)
    {
        double cc = 0, cs = 0, ss = 0, yc = 0, ys = 0, yy = 0;
        var count = 0;
        var known = a != 0 || b != 0;
        bool before = false, here = false;
        for (var next = 0; next <= values.Length; next++)
        {
            var after = false;
            if (next < values.Length)
            {
                var expected = a * cos[next] + b * sin[next];
                after = known ? Math.Abs(expected) >= least && Math.Abs(values[next] - expected) <= Math.Abs(values[next]) : Math.Abs(values[next]) >= least;
            }

            var inside = before && here && after;
            (before, here) = (here, after);
            if (!inside)
            {
                continue;
            }

            var i = next - 1;
            count++;
            cc += cos[i] * cos[i];
            cs += cos[i] * sin[i];
            ss += sin[i] * sin[i];
            yc += values[i] * cos[i];
            ys += values[i] * sin[i];
            yy += values[i] * values[i];
        }

        var determinant = cc * ss - cs * cs;
        if (count < FewestSamples || !(determinant > 1e-6 * count * count))
        {
            return null;
        }

        var (fa, fb) = ((yc * ss - ys * cs) / determinant, (ys * cc - yc * cs) / determinant);
        return new(fa, fb, Math.Sqrt(Math.Max(0, yy - fa * yc - fb * ys) / count));
    }

    private void Fold(ReadOnlySpan<double> values, ReadOnlySpan<double> cos, ReadOnlySpan<double> sin, ReadOnlySpan<double> turns, in Piece mains)
    {
        Array.Clear(on);
        Array.Clear(off);
        var least = Decided(mains);
        var start = MainsPhase / (2 * Math.PI);
        for (var i = 0; i < values.Length; i++)
        {
            var expected = mains.A * cos[i] + mains.B * sin[i];
            if (Math.Abs(expected) < least)
            {
                continue;
            }

            var turn = turns[i] + start;
            var bin = Math.Clamp((int)((turn - Math.Floor(turn)) * Bins), 0, Bins - 1);
            (Math.Abs(values[i] - expected) < Math.Abs(values[i]) ? on : off)[bin]++;
        }
    }

    /// <summary>Walks once round the cycle and adds up what is cut off; bins without a decided sample take the middle of their neighbours.</summary>
    private void Walk()
    {
        var begin = Array.FindIndex(on, count => count > 0);
        while (begin >= 0 && begin < Bins && !(on[begin] > 0 && on[begin] >= off[begin]))
        {
            begin++;
        }

        if (begin < 0 || begin == Bins)
        {
            return;
        }

        var (cut, lastOn, lastOff, entered) = (0.0, begin, -1, 0.0);
        double sumSin = 0, sumCos = 0, width = 0;
        var fired = 0;
        for (var at = begin + 1; at <= begin + Bins; at++)
        {
            var bin = at % Bins;
            if (on[bin] + off[bin] == 0)
            {
                continue;
            }

            if (on[bin] < off[bin])
            {
                entered = lastOff < 0 ? 0.5 * (lastOn + at) : entered;
                lastOff = at;
                continue;
            }

            if (lastOff >= 0)
            {
                var onset = 0.5 * (lastOff + at);
                if (onset - entered >= ShortestGap)
                {
                    cut += onset - entered;
                    var (s, c) = Math.SinCos(2 * (onset + 0.5) * 2 * Math.PI / Bins);
                    (sumSin, sumCos, width, fired) = (sumSin + s, sumCos + c, width + 0.5 * (at - lastOff), fired + 1);
                }
            }

            (lastOn, lastOff) = (at, -1);
        }

        Share = 1 - cut / Bins;
        if (fired > 0)
        {
            // Twice the angle: the half cycles of a full-wave controller fire alike, and the channel's polarity does not matter.
            var degrees = Math.Atan2(sumSin, sumCos) * 90 / Math.PI;
            FiringDegrees = degrees < -15 ? degrees + 180 : Math.Max(0, degrees);
            HalfWidthDegrees = width / fired * 360 / Bins;
        }
    }

    /// <summary>The mains' sine a cos x + b sin x, and what the samples that are there leave over.</summary>
    private readonly record struct Piece(double A, double B, double Noise)
    {
        public double Amplitude => Math.Sqrt(A * A + B * B);
    }
}
