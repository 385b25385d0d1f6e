using Serilog.Core;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>Work that the measurement must not wait for: where it is done, and that nothing of it is lost in silence.</summary>
public sealed class DeskTests
{
    private static readonly TimeSpan Long = TimeSpan.FromSeconds(30);

    [Fact]
    public void Stops_and_starts_read_beside_the_measurement_tell_the_same_to_the_last_bit()
    {
        var inline = new Ear();
        Play(inline, new InlineDesk());
        var beside = new Ear();
        using var desk = new BackgroundDesk(Logger.None);
        Play(beside, desk);

        Assert.Equal(2, inline.Decays.Count);
        Assert.Equal(2, inline.Starts.Count(start => start.Decay is not null));
        Assert.Equal(inline.Decays, beside.Decays);
        Assert.Equal(inline.Starts, beside.Starts);
        Assert.Equal(inline.Windows, beside.Windows);
        Assert.Equal([Environment.CurrentManagedThreadId], beside.Threads);
        Assert.Equal((0, 0), (desk.Dropped, desk.Failed));
    }

    [Fact]
    public void Windows_come_while_a_start_is_still_being_read()
    {
        var ear = new Ear();
        using var held = new ManualResetEventSlim();
        using var desk = new BackgroundDesk(Logger.None);
        desk.Post(() =>
        {
            held.Wait(Long);
            return null;
        });
        Play(ear, desk, finish: false);

        Assert.Empty(ear.Starts);
        Assert.True(ear.Windows > 20);
        held.Set();
        desk.Finish();
        Assert.Equal(2, ear.Starts.Count);
    }

    [Fact]
    public void What_does_not_fit_is_refused_and_counted_and_the_rest_is_done_in_order()
    {
        var order = new List<int>();
        using var held = new ManualResetEventSlim();
        using var desk = new BackgroundDesk(Logger.None);
        var taken = Enumerable.Range(0, 40).Count(i => desk.Post(() =>
        {
            held.Wait(Long);
            return () => order.Add(i);
        }));
        held.Set();
        desk.Finish();

        Assert.InRange(taken, 16, 17);
        Assert.Equal(40 - taken, desk.Dropped);
        Assert.Equal(Enumerable.Range(0, taken), order);
    }

    [Fact]
    public void Work_that_fails_is_counted_and_does_not_stop_what_comes_after()
    {
        var done = 0;
        using var desk = new BackgroundDesk(Logger.None);
        desk.Post(() => throw new InvalidOperationException("on purpose"));
        desk.Post(() => () => done++);
        desk.Finish();

        Assert.Equal((1, 1L, 0L), (done, desk.Failed, desk.Dropped));
    }

    [Fact]
    public void A_closed_desk_takes_nothing_more_and_says_so()
    {
        var desk = new BackgroundDesk(Logger.None);
        desk.Dispose();
        Assert.False(desk.Post(() => null));
        Assert.Equal(1, desk.Dropped);
    }

    private static void Play(Ear ear, IDesk desk, bool finish = true)
    {
        var scenario = DemoScenario.Create(60, 10, 10, 14) with { WarmStart = false };
        scenario = scenario with { Supply = scenario.Supply with { On = [(0.3, 5.2), (7, 12)] } };
        using var source = new SimulatedFeederSource(scenario);
        var chain = new MeasurementChain(scenario.Feeder, new(), ear, desk);
        chain.Begin(ChainSettings.For(scenario.Feeder, source.Info, scenario.Sensor.RateHz));
        var block = new SampleBlock(3, 2048);
        while (source.Read(block) != SourceState.End)
        {
            chain.Take(block);
        }

        chain.Finish();
        if (finish)
        {
            desk.Finish();
        }
    }

    private sealed class Ear : IChainListener
    {
        public List<DecayReading> Decays { get; } = [];

        public List<StartReading> Starts { get; } = [];

        public HashSet<int> Threads { get; } = [];

        public int Windows { get; private set; }

        public void Window(in AssessedWindow window) => Windows++;

        public void Decay(in DecayReading decay)
        {
            Threads.Add(Environment.CurrentManagedThreadId);
            Decays.Add(decay);
        }

        public void Start(in StartReading reading)
        {
            Threads.Add(Environment.CurrentManagedThreadId);
            Starts.Add(reading);
        }

        public void Alarm(in AlarmTransition transition)
        {
        }
    }
}
