using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Magnet;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated;

/// <summary>Starts of feeders whose magnet has a constant flux of its own, against the machine model's own natural frequency and damping.</summary>
public sealed class BiasedMagnetTests
{
    [Theory]
    [InlineData(1.5, 0.07, 1.07, 0.02)]
    [InlineData(2.5, 0.1, 0.93, 0.017)]
    [InlineData(5, 0.1, 1.07, 0.0204)]
    [InlineData(10, 0.04, 1.1, 0.03)]
    public void A_start_tells_natural_frequency_and_damping_within_what_is_stated(double bias, double resistance, double tuning, double damping)
    {
        var (start, truth) = Start(bias, resistance, tuning, damping, said: true);
        Assert.InRange(Math.Abs(start.NaturalFrequencyHz - truth.NaturalHz), 0, start.FrequencyUncertaintyHz);
        Assert.InRange(Math.Abs(start.DampingRatio - truth.DampingRatio), 0, start.DampingUncertainty);
        Assert.InRange(start.DampingRatio / truth.DampingRatio, 0.88, 1.12);
        Assert.InRange(start.NaturalFrequencyHz / truth.NaturalHz, 0.9955, 1.0045);
    }

    [Fact]
    public void A_magnet_taken_for_a_plain_one_would_have_two_fifths_of_its_damping_taken_off()
    {
        var (start, truth) = Start(5, 0.1, 0.93, 0.017, said: false);
        Assert.InRange(start.DampingRatio / truth.DampingRatio, 0.4, 0.75);
    }

    private static (DecayReading Start, SimulationTruth Truth) Start(double bias, double resistance, double tuning, double damping, bool said)
    {
        var scenario = new FeederScenario
        {
            DurationSeconds = 5,
            WarmStart = false,
            InternalHz = 20_000,
            Machine = new() { TuningRatio = tuning, DampingRatio = damping },
            Supply = new() { Kind = DriveKind.MagnetBiased, BiasFlux = bias, ResistanceRatio = resistance, On = [(0.5, 5)] },
            Sensor = new() { NoiseG = 0.005 },
        };
        using var source = new SimulatedFeederSource(scenario);
        var report = Replayer.Run("simulated", source, scenario.Feeder with { Supply = new SupplyDescription { Biased = said } }, new AlarmDelays());
        return (Assert.Single(report.Report.Starts).Decay!.Value, source.Truth());
    }
}
