using System.Runtime.Intrinsics;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>
/// A linear-phase low-pass that takes every n-th sample of three channels: a windowed sinc, flat to 0.42 of the lower rate and at least 85 dB down
/// from 0.58 of it, so that what could fold back below 0.42 is gone. Source: Kaiser's window design (from memory).
/// </summary>
internal sealed class Decimator
{
    private const double AttenuationDb = 90;
    private const double Transition = 0.16;
    private readonly double[] taps;
    private readonly double[][] history;
    private int write;

    public Decimator(int factor)
    {
        var half = (int)Math.Ceiling((AttenuationDb - 8) / (2.285 * 2 * Math.PI * Transition / factor) / 2);
        Delay = half;
        var beta = 0.1102 * (AttenuationDb - 8.7);
        taps = new double[(2 * half) + 1];
        for (var i = 0; i < taps.Length; i++)
        {
            double n = i - half, at = n / half;
            var sinc = n == 0 ? 1.0 / factor : Math.Sin(Math.PI * n / factor) / (Math.PI * n);
            taps[i] = sinc * BesselI0(beta * Math.Sqrt(1 - (at * at)));
        }

        var sum = taps.Sum();
        for (var i = 0; i < taps.Length; i++)
        {
            taps[i] /= sum;
        }

        history = [new double[2 * taps.Length], new double[2 * taps.Length], new double[2 * taps.Length]];
    }

    /// <summary>Gets how many steps after a sample went in its filtered value comes out.</summary>
    public int Delay { get; }

    /// <summary>Takes one sample of each channel.</summary>
    public void Push((double X, double Y, double Z) sample)
    {
        Put(history[0], sample.X);
        Put(history[1], sample.Y);
        Put(history[2], sample.Z);
        write = (write + 1) % taps.Length;
    }

    /// <summary>Gives the filtered value of <see cref="Delay"/> samples ago.</summary>
    public (double X, double Y, double Z) Value() => (Dot(history[0]), Dot(history[1]), Dot(history[2]));

    private static double BesselI0(double x)
    {
        double sum = 1, term = 1;
        for (var k = 1; term > 1e-17 * sum; k++)
        {
            term *= x * x / (4.0 * k * k);
            sum += term;
        }

        return sum;
    }

    private void Put(double[] ring, double value) => ring[write] = ring[write + taps.Length] = value;

    private double Dot(double[] ring)
    {
        var past = ring.AsSpan(write, taps.Length);
        var sum = Vector256<double>.Zero;
        var i = 0;
        for (; i + Vector256<double>.Count <= taps.Length; i += Vector256<double>.Count)
        {
            sum += Vector256.Create<double>(past[i..]) * Vector256.Create(taps, i);
        }

        // Four lanes on every machine, so that every machine adds in the same order and gives the same bits.
        var total = sum[0] + sum[1] + sum[2] + sum[3];
        for (; i < taps.Length; i++)
        {
            total += past[i] * taps[i];
        }

        return total;
    }
}
