using System.Collections.Concurrent;
using System.Diagnostics;
using StrokeWatch.Pipeline.Ports;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Pipeline.Ports;

/// <summary>Keeps real time: a source that loses what nobody reads in time, as a terminal's buffer does.</summary>
[Collection(Undisturbed.Name)]
public sealed class PortReaderTests
{
    private const double RateHz = 4000;

    [Fact]
    public void A_measurement_that_is_two_seconds_late_loses_no_sample_of_a_source_whose_buffer_holds_less_than_one()
    {
        using var source = new Cable(holdSeconds: 0.68);
        using var queue = new BlockingCollection<ArrivedBlock>();
        using var reader = new PortReader("cable", source, () => 0, queue.Add);
        reader.Start();
        Thread.Sleep(2000);
        double next = 0;
        for (var watch = Stopwatch.StartNew(); watch.Elapsed.TotalSeconds < 1;)
        {
            if (queue.TryTake(out var block, 50))
            {
                Assert.Equal(next, block.Block[0][0]);
                next += block.Block.Count;
                reader.Return(block);
            }
        }

        Assert.Equal(0, source.Lost);
        Assert.True(next > 2.5 * RateHz, $"{next} samples");
    }

    /// <summary>Counts its samples, which come at an even rate; what is not read in time is lost.</summary>
    private sealed class Cable(double holdSeconds) : ISampleSource
    {
        private readonly Stopwatch watch = Stopwatch.StartNew();
        private long given;

        public SourceInfo Info { get; } = new() { Format = "cable", Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = RateHz };

        public SourceCounters Counters { get; } = new();

        public long Lost { get; private set; }

        public SourceState Read(SampleBlock block)
        {
            long due;
            while ((due = (long)(watch.Elapsed.TotalSeconds * RateHz)) - given < 20)
            {
                Thread.Sleep(2);
            }

            var gone = Math.Max(0, due - given - (long)(holdSeconds * RateHz));
            (Lost, given) = (Lost + gone, given + gone);
            block.Clear();
            var count = (int)Math.Min(block.Capacity, due - given);
            for (var i = 0; i < count; i++)
            {
                block.Fill(0)[i] = given + i;
            }

            block.SetCount(count);
            given += count;
            return SourceState.Samples;
        }

        public void Dispose()
        {
        }
    }
}
