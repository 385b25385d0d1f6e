using System.Numerics;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>
/// A random generator that gives the same numbers for the same seed on every machine and version.
/// Source: xoshiro256** 1.0 seeded by splitmix64, Blackman and Vigna, public domain (from memory).
/// </summary>
internal sealed class SeededRandom
{
    private ulong s0, s1, s2, s3;
    private double spare = double.NaN;

    /// <summary>Makes one of several independent streams of a seed.</summary>
    public SeededRandom(ulong seed, int stream)
    {
        var state = seed + ((ulong)stream * 0xD1342543DE82EF95UL);
        s0 = Mix(ref state);
        s1 = Mix(ref state);
        s2 = Mix(ref state);
        s3 = Mix(ref state);
    }

    /// <summary>Gives a number spread evenly over 0 to 1, 1 excluded.</summary>
    public double Uniform() => (Next() >> 11) / 9007199254740992.0;

    /// <summary>Gives an exponentially spread number of mean 1.</summary>
    public double Exponential() => -Math.Log(1 - Uniform());

    /// <summary>Gives a normally spread number of mean 0 and standard deviation 1 (polar method of Marsaglia).</summary>
    public double Normal()
    {
        if (!double.IsNaN(spare))
        {
            var kept = spare;
            spare = double.NaN;
            return kept;
        }

        double u, v, s;
        do
        {
            u = (2 * Uniform()) - 1;
            v = (2 * Uniform()) - 1;
            s = (u * u) + (v * v);
        }
        while (s >= 1 || s == 0);
        var scale = Math.Sqrt(-2 * Math.Log(s) / s);
        spare = v * scale;
        return u * scale;
    }

    private static ulong Mix(ref ulong state)
    {
        state += 0x9E3779B97F4A7C15UL;
        var z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }

    private ulong Next()
    {
        var result = BitOperations.RotateLeft(s1 * 5, 7) * 9;
        var t = s1 << 17;
        s2 ^= s0;
        s3 ^= s1;
        s1 ^= s2;
        s0 ^= s3;
        s2 ^= t;
        s3 = BitOperations.RotateLeft(s3, 45);
        return result;
    }
}
