using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The demonstration's feeder: healthy, then drifting up to over-stroke, then striking.</summary>
public static class DemoScenario
{
    /// <summary>Gets the demonstration's feeder: half-wave, 50 Hz, band 1.65 to 1.78 mm.</summary>
    public static FeederDescription Feeder { get; } = new()
    {
        Name = "Cullet feeder",
        Drive = new(50, 1, false),
        Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90)),
        Sensor = new() { FullScale = 32 * Gravity.Standard },
        Masses = new(35, 70),
    };

    /// <summary>Makes the run: healthy for some seconds, a rise of the voltage that ends 4 % over the limit, a hold there, then strikes to the end.</summary>
    /// <param name="healthySeconds">Length of the healthy part.</param>
    /// <param name="riseSeconds">Length of the rise; the limit is passed at about three quarters of it.</param>
    /// <param name="holdSeconds">Time between the end of the rise and the first strike.</param>
    /// <param name="durationSeconds">Length of the whole run; infinite for one that strikes until it is stopped.</param>
    /// <param name="seed">Seed of noise and material.</param>
    public static FeederScenario Create(
        double healthySeconds = 25, double riseSeconds = 35, double holdSeconds = 15, double durationSeconds = 120, ulong seed = 2026)
    {
        var risen = healthySeconds + riseSeconds;
        return new FeederScenario
        {
            Name = "Demonstration",
            Feeder = Feeder,
            Seed = seed,
            DurationSeconds = durationSeconds,
            Stroke = Length.FromMillimetres(1.71),
            Supply = new() { Voltage = [(0, 100), (healthySeconds, 100), (risen, 107.5)], OffsetHz = 0.02, WanderHz = 0.01 },
            Strike = new() { FromSeconds = risen + holdSeconds, ForceShare = 0.8, Spread = 0.1 },
            Material = new() { LoadKilograms = 0.5, ImpactsPerSecond = 0.5, ImpactNewtons = 60 },
            Sensor = new() { RateHz = 4000, RateErrorPpm = 2500, NoiseG = 0.03, DeckDegrees = 4 },
        };
    }
}
