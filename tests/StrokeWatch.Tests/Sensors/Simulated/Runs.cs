using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Tests.Sensors.Simulated;

/// <summary>A simulated run read to its end.</summary>
internal sealed record Runs(double[] X, double[] Y, double[] Z, SimulationTruth Truth, SourceCounters Counters, IReadOnlyList<(double Start, long Missing)> Blocks)
{
    /// <summary>A scenario whose sensor adds nothing of its own.</summary>
    public static FeederScenario Clean { get; } = new()
    {
        DurationSeconds = 2,
        Sensor = new() { NoiseG = 0, Bits = 0, Poles = 0, RangeG = 1000 },
    };

    public static Runs Of(FeederScenario scenario, int blockSamples = 1000)
    {
        using var source = new SimulatedFeederSource(scenario);
        var block = new SampleBlock(source.Info.Axes.Count, blockSamples);
        List<double> x = [], y = [], z = [];
        List<(double Start, long Missing)> blocks = [];
        while (source.Read(block) == SourceState.Samples)
        {
            x.AddRange(block[0]);
            y.AddRange(block[1]);
            z.AddRange(block[2]);
            blocks.Add((block.StartSeconds, block.MissingBefore));
        }

        return new([.. x], [.. y], [.. z], source.Truth(), source.Counters, blocks);
    }
}
