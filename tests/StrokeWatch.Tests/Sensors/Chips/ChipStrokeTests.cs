using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Tests.Sensors.Chips.Emulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Chips;

/// <summary>From a simulated feeder through a chip's registers, its driver and the chain: the stroke comes out as it went in.</summary>
public sealed class ChipStrokeTests
{
    [Theory]
    [InlineData("adxl357", ChipBus.Spi, 4000, 40)]
    [InlineData("adxl357", ChipBus.I2c, 1000, 40)]
    [InlineData("kx134", ChipBus.Spi, 6400, 32)]
    [InlineData("kx134", ChipBus.I2c, 3200, 64)]
    [InlineData("adxl345", ChipBus.Spi, 3200, 16)]
    public void The_simulated_stroke_is_measured_within_its_uncertainty(string kind, ChipBus bus, double rate, double range)
    {
        // The chip's clock is 2 % fast, as the worst of them are.
        const double ClockError = 0.02;
        using var feeder = new SimulatedFeederSource(new()
        {
            DurationSeconds = 9,
            Stroke = Length.FromMillimetres(1.71),
            Sensor = new() { RateHz = rate, RateErrorPpm = ClockError * 1e6, Bits = 0, NoiseG = 0.01, RangeG = 1000, DeckDegrees = 4, BandwidthHz = 0.4 * rate, Poles = 0 },
        });
        var samples = ReadAll(feeder);
        using var bench = new ChipBench(kind, bus, rate, range) { Chip = { RateError = ClockError, Signal = n => samples[(int)Math.Min(n, samples.Count - 1)] } };
        using var ending = new Ending(bench.Source, bench.Chip, samples.Count - 200);
        var result = Replayer.Run("chip", ending, new FeederScenario().Feeder, new AlarmDelays());

        var truth = feeder.Truth().Stroke!.PeakToPeak.Metres;
        Assert.Equal(0, result.Counters.Gaps);
        Assert.Equal(truth, result.Report.Stroke.Stroke!.Value, result.Report.Stroke.Uncertainty!.Value);
        Assert.Equal(truth, result.Report.Stroke.Stroke.Value, 0.004 * truth);
    }

    private static List<(double X, double Y, double Z)> ReadAll(SimulatedFeederSource feeder)
    {
        var all = new List<(double, double, double)>();
        var block = new SampleBlock(3, 512);
        while (feeder.Read(block) == SourceState.Samples)
        {
            for (var i = 0; i < block.Count; i++)
            {
                all.Add((block[0][i] / Gravity.Standard, block[1][i] / Gravity.Standard, block[2][i] / Gravity.Standard));
            }
        }

        return all;
    }

    /// <summary>A live source that ends where the emulated chip has given so many samples.</summary>
    private sealed class Ending(ISampleSource source, EmulatedChip chip, long samples) : ISampleSource
    {
        public SourceInfo Info => source.Info;

        public SourceCounters Counters => source.Counters;

        public SourceState Read(SampleBlock block) => chip.Taken < samples ? source.Read(block) : SourceState.End;

        public void Dispose()
        {
        }
    }
}
