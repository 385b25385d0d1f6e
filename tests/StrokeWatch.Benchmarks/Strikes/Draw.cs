namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>Random numbers of the shapes that the study needs.</summary>
internal static class Draw
{
    public static double Between(Random random, double low, double high) => low + ((high - low) * random.NextDouble());

    /// <summary>Gives a number whose logarithm is spread evenly.</summary>
    public static double Log(Random random, double low, double high) => low * Math.Pow(high / low, random.NextDouble());

    public static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    public static double Exponential(Random random) => -Math.Log(1 - random.NextDouble());

    public static bool Coin(Random random, double share = 0.5) => random.NextDouble() < share;
}
