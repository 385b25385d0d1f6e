using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Pipeline;
using StrokeWatch.Pipeline.Ports;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Tests.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Pipeline.Ports;

/// <summary>The threads of several sources: what they give is measured to the end, and what one of them throws ends the run.</summary>
[Collection(Undisturbed.Name)]
public sealed class PortsDaemonTests : IChainListener
{
    private readonly List<AlarmTransition> alarms = [];
    private readonly List<AssessedWindow> windows = [];
    private int finished;

    [Fact]
    public void A_strike_that_only_the_second_sensor_hears_is_heard()
    {
        var healthy = Runs.Clean with { DurationSeconds = 6, Sensors = [new(SensorPlace.Front)], Sensor = new() { RateErrorPpm = 4000 } };
        var striking = healthy with
        {
            Sensors = [new(SensorPlace.Rear)],
            Sensor = new() { RateErrorPpm = -3000 },
            Seed = 7,
            Strike = new() { FromSeconds = 2 },
        };
        Run(healthy, striking);
        Assert.Contains(alarms, alarm => alarm is { Kind: AlarmKind.Strike, Raised: true });
        Assert.Equal(1, finished);
        Assert.True(windows.Count >= 10);
    }

    [Fact]
    public void The_trouble_of_one_source_ends_the_run_instead_of_being_passed_over()
    {
        using var good = new SimulatedFeederSource(Runs.Clean with { DurationSeconds = 1, Sensors = [new(SensorPlace.Front)] });
        using var desk = new InlineDesk();
        var daemon = new PortsDaemon(Feeder(), [good, new Broken()], new(), this, TimeProvider.System, desk);
        Assert.Equal("out of order", Assert.Throws<InvalidOperationException>(() => daemon.Run(_ => { }, CancellationToken.None)).Message);
    }

    void IChainListener.Window(in AssessedWindow window) => windows.Add(window);

    void IChainListener.Decay(in DecayReading decay)
    {
    }

    void IChainListener.Alarm(in AlarmTransition transition) => alarms.Add(transition);

    void IChainListener.Finish() => finished++;

    private static FeederDescription Feeder() => Runs.Clean.Feeder with { Sensors = [new(SensorPlace.Front, [], new()), new(SensorPlace.Rear, [], new())] };

    private void Run(params FeederScenario[] scenarios)
    {
        List<ISampleSource> sources = [.. scenarios.Select(scenario => new Paced(new SimulatedFeederSource(scenario)))];
        using var desk = new InlineDesk();
        new PortsDaemon(Feeder(), sources, new(), this, TimeProvider.System, desk).Run(_ => { }, CancellationToken.None);
        sources.ForEach(source => source.Dispose());
    }

    /// <summary>A source that gives its samples no faster than they are taken.</summary>
    private sealed class Paced(ISampleSource inner) : ISampleSource
    {
        private readonly System.Diagnostics.Stopwatch watch = new();
        private readonly SampleBlock small = new(3, 64);

        public SourceInfo Info => inner.Info;

        public SourceCounters Counters => inner.Counters;

        public SourceState Read(SampleBlock block)
        {
            watch.Start();
            var state = inner.Read(small);
            block.Clear();
            for (var channel = 0; channel < small.Channels; channel++)
            {
                small[channel].CopyTo(block.Fill(channel));
            }

            block.SetCount(small.Count);
            (block.RateHz, block.StartSeconds) = (small.RateHz, small.StartSeconds);
            var wait = small.StartSeconds - watch.Elapsed.TotalSeconds;
            if (wait > 0)
            {
                Thread.Sleep(TimeSpan.FromSeconds(wait));
            }

            return state;
        }

        public void Dispose() => inner.Dispose();
    }

    private sealed class Broken : ISampleSource
    {
        public SourceInfo Info { get; } = new() { Format = "frames", Axes = [Axis.Z], Places = [SensorPlace.Rear], RateHz = 3200 };

        public SourceCounters Counters { get; } = new();

        public SourceState Read(SampleBlock block) => throw new InvalidOperationException("out of order");

        public void Dispose()
        {
        }
    }
}
