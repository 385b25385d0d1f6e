namespace StrokeWatch.Tests.Assessment.Trends;

/// <summary>Seeded readings of the standard normal law (Box and Muller).</summary>
internal sealed class NormalReadings(int seed)
{
    private readonly Random random = new(seed);
    private double? second;

    public double Next()
    {
        if (second is { } kept)
        {
            second = null;
            return kept;
        }

        var radius = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()));
        var (sine, cosine) = Math.SinCos(2 * Math.PI * random.NextDouble());
        second = radius * sine;
        return radius * cosine;
    }
}
