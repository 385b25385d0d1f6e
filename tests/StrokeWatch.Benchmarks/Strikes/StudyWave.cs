using System.Numerics;

namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>A waveform of one period, kept below half the rate at which it is going to be sampled.</summary>
/// <remarks>A kink sampled as it is would fold orders from above half that rate to places between the orders, half and third ones among them, where no force puts any.</remarks>
internal static class StudyWave
{
    /// <summary>The number of points of a period.</summary>
    public const int Points = 4096;

    private static readonly Fft Transform = new(Points);

    /// <summary>Takes off what lies above half a sampling rate.</summary>
    /// <param name="wave">The points of a period.</param>
    /// <param name="hertz">Periods a second.</param>
    /// <param name="rate">Samples a second.</param>
    public static void Limit(double[] wave, double hertz, double rate)
    {
        var lines = wave.Select(value => new Complex(value, 0)).ToArray();
        Transform.Transform(lines);
        for (var k = 1; k <= Points / 2; k++)
        {
            var share = k * hertz / rate;
            var keep = share <= 0.35 ? 1 : share >= 0.5 ? 0 : Math.Pow(Math.Cos(Math.PI / 2 * (share - 0.35) / 0.15), 2);
            lines[k] *= keep;
            lines[Points - k] = Complex.Conjugate(lines[k]);
        }

        Transform.Transform(lines, back: true);
        for (var i = 0; i < Points; i++)
        {
            wave[i] = lines[i].Real / Points;
        }
    }

    /// <summary>Gives the wave at a time in periods.</summary>
    public static double At(double[] wave, double periods)
    {
        var at = (periods - Math.Floor(periods)) * Points;
        var i = (int)at;
        return wave[i % Points] + ((at - i) * (wave[(i + 1) % Points] - wave[i % Points]));
    }
}
