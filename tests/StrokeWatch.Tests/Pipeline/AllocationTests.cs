using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Calibration;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Tests.Measurement;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>What the whole chain takes of managed memory once it runs: the runtime's own count of the thread.</summary>
[Collection(Undisturbed.Name)]
public sealed class AllocationTests
{
    private const double Rate = 4000;

    private static readonly SensorCalibration Tilted = new()
    {
        Date = new(2026, 3, 14),
        Method = "six-position tumble",
        Gain = [1, 0.01, 0, 0, 1, 0.01, 0.01, 0, 1],
        Bias = [0.1, 0.2, -0.1],
        ExpandedUncertainty = 2e-3,
    };

    [Theory]
    [InlineData(1.5, false, false, false)]
    [InlineData(1.5, true, false, false)]
    [InlineData(2.1, false, false, false)]
    [InlineData(0, false, false, false)]
    [InlineData(1.5, true, true, false)]
    [InlineData(1.5, false, false, true)]
    public void The_whole_chain_allocates_nothing_a_sample_or_a_window(double strokeMillimetres, bool calibrated, bool supply, bool secondEar)
    {
        var blocks = Signal.Blocks(Signal.Feeder(strokeMillimetres / 1e3, 50, 20, 0.1, 5, (2, 0.08)), Rate, secondEar ? 160 : 16).ToArray();
        foreach (var block in supply ? blocks : [])
        {
            block.HasSupply = true;
            for (var n = 0; n < block.Count; n++)
            {
                block.FillSupply()[n] = 325 * Math.Sin(2 * Math.PI * 50 * (block.StartSeconds + (n / Rate)));
            }
        }

        var feeder = new FeederDescription
        {
            Name = "Sand feeder",
            Drive = new(50, 1, false),
            Band = new(Length.FromMillimetres(1.4), Length.FromMillimetres(1.6), Length.FromMillimetres(1.9)),
            Sensor = new() { FullScale = 32 * Gravity.Standard, Calibration = calibrated ? Tilted : null },
        };
        var listener = new Counter();
        using var ear = secondEar ? SecondEar.MakeAnyway() : null;
        var chain = new MeasurementChain(feeder, new AlarmDelays(), listener, ear: ear);
        chain.Begin(ChainSettings.For(feeder, new SourceInfo { Format = "frames", Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = Rate, HasSupply = supply }, Rate));
        var (warm, stretch) = secondEar ? (640, 160) : (64, 8); // A second ear gives windows on when its ring is full.
        foreach (var block in blocks.Take(warm))
        {
            chain.Take(block);
        }

        // In stretches: what the runtime itself allots now and then, for instance when a collection is caused elsewhere, does not fall into every one.
        var least = long.MaxValue;
        for (var i = warm; i + stretch <= blocks.Length; i += stretch)
        {
            var (before, windows) = (Allocated(), listener.Windows);
            for (var j = i; j < i + stretch; j++)
            {
                chain.Take(blocks[j]);
            }

            least = Math.Min(least, Allocated() - before);
            Assert.True(listener.Windows > windows);
        }

        Assert.Equal(0, least);
        long Allocated() => secondEar ? GC.GetTotalAllocatedBytes(precise: true) : GC.GetAllocatedBytesForCurrentThread();
        Assert.Equal(strokeMillimetres switch { 0 => Verdict.Stopped, > 1.9 => Verdict.OverStroke, _ => Verdict.InBand }, listener.Last);
    }

    private sealed class Counter : IChainListener
    {
        public int Windows { get; private set; }

        public Verdict Last { get; private set; }

        public void Window(in AssessedWindow window) => (Windows, Last) = (Windows + 1, window.Verdict);

        public void Decay(in DecayReading decay)
        {
        }

        public void Alarm(in AlarmTransition transition)
        {
        }
    }
}
