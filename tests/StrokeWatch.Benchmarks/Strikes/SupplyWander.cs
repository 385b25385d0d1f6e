namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>
/// How far the supply runs ahead of its mean frequency, in its cycles, over a run that wraps round: the frequency walks at random, by 0.3 to 10 mHz a second (of a large and of a small grid; common practice, no source).
/// </summary>
internal sealed class SupplyWander
{
    private const int Terms = 8;
    private const int Points = 1024;
    private readonly double[] cycles = new double[Points + 1];
    private readonly double pointsASecond;

    /// <summary>Initialises a new instance of the <see cref="SupplyWander"/> class.</summary>
    /// <param name="seed">Draws it apart from all else in the run.</param>
    /// <param name="seconds">The run's length.</param>
    public SupplyWander(int seed, double seconds)
    {
        var random = new Random(seed);
        var hertz = Draw.Log(random, 0.3e-3, 10e-3);
        var omega = 2 * Math.PI / seconds;
        pointsASecond = Points / seconds;
        for (var k = 1; k <= Terms; k++)
        {
            // White change of frequency, of the density that makes a walk of so many hertz in a second; integrated twice it is cycles.
            var scale = hertz * Math.Sqrt(2 / seconds) / (omega * k * omega * k);
            var (cosine, sine) = (scale * Draw.Normal(random), scale * Draw.Normal(random));
            for (var i = 0; i <= Points; i++)
            {
                var (sin, cos) = Math.SinCos(2 * Math.PI * k * i / Points);
                cycles[i] += (cosine * (cos - 1)) + (sine * sin);
            }
        }
    }

    /// <summary>Gives the cycles at a time in seconds; none at the begin.</summary>
    public double At(double seconds)
    {
        var at = Math.Clamp(seconds * pointsASecond, 0, Points - 1e-9);
        var n = (int)at;
        return cycles[n] + ((at - n) * (cycles[n + 1] - cycles[n]));
    }
}
