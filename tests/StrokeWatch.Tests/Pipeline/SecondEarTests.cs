using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>What a capture tells must not hang on how many processors listen to it.</summary>
public sealed class SecondEarTests
{
    [Fact]
    public void All_is_told_in_the_same_order_and_to_the_same_bit_as_on_one_processor()
    {
        var alone = new Script();
        Play(alone, null);
        for (var turn = 0; turn < 3; turn++)
        {
            using var ear = SecondEar.MakeAnyway();
            var beside = new Script();
            Play(beside, ear);
            Assert.Equal(alone.Lines, beside.Lines);
        }

        Assert.Contains(alone.Lines, line => line.StartsWith("strike ", StringComparison.Ordinal));
        Assert.Contains(alone.Lines, line => line.StartsWith("decay ", StringComparison.Ordinal));
        Assert.Contains(alone.Lines, line => line.StartsWith("start ", StringComparison.Ordinal));
        Assert.Contains(alone.Lines, line => line.StartsWith("alarm ", StringComparison.Ordinal));
        Assert.Contains(alone.Lines, line => line.Contains("samples are missing", StringComparison.Ordinal));
        Assert.True(alone.Lines.Count > 100);
    }

    [Fact]
    public void Trouble_in_hearing_comes_out_where_the_measurement_runs()
    {
        using var ear = SecondEar.MakeAnyway();
        ear.GiveTo(new Sink());

        // Storage in which no window was kept cannot be listened to.
        ear.Window(new() { StartSeconds = 0, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running, Unheard = ear.Next() });
        Assert.ThrowsAny<ArgumentException>(ear.Finish);
        ear.Finish();
    }

    [Fact]
    public void A_window_that_needs_no_listening_waits_for_nothing()
    {
        using var ear = SecondEar.MakeAnyway();
        var sink = new Sink();
        ear.GiveTo(sink);
        ear.Window(new() { StartSeconds = 0, LengthSeconds = 0.5, Quality = WindowQuality.Gap, Motion = MotionState.Unknown });
        Assert.Equal(1, sink.Windows);
    }

    private static void Play(Script script, SecondEar? ear)
    {
        var scenario = DemoScenario.Create(6, 10, 6, 60) with { WarmStart = false };
        scenario = scenario with { Supply = scenario.Supply with { On = [(0.3, 12.2), (14, 57)] } };
        using var source = new SimulatedFeederSource(scenario);
        var chain = new MeasurementChain(scenario.Feeder, new(), script, ear: ear);
        chain.Begin(ChainSettings.For(scenario.Feeder, source.Info, scenario.Sensor.RateHz));
        var block = new SampleBlock(3, 2048);
        for (var blocks = 0; source.Read(block) != SourceState.End; blocks++)
        {
            if (blocks is 30 or 31)
            {
                continue;
            }

            block.GapBefore |= blocks == 32;
            chain.Take(block);
        }

        chain.Finish();
    }

    /// <summary>Writes down all that is told.</summary>
    private sealed class Script : IChainListener
    {
        public List<string> Lines { get; } = [];

        public void Window(in AssessedWindow window)
        {
            Assert.Null(window.Reading.Unheard);
            var levels = window.Reading.Levels is { } read ? string.Join(' ', read.Half, read.Slow, read.Noise, read.SecondReal) : "";
            Lines.Add($"{(window.Reading.Strike ? "strike" : "window")} {window.Verdict} {window.Reading with { Levels = null, Supply = null }} {levels}");
        }

        public void Decay(in DecayReading decay) => Lines.Add($"decay {decay}");

        public void Start(in StartReading reading) => Lines.Add($"start {reading}");

        public void Alarm(in AlarmTransition transition) => Lines.Add($"alarm {transition}");
    }

    private sealed class Sink : IWindowSink
    {
        public int Windows { get; private set; }

        public void Window(in WindowReading reading) => Windows++;

        public void Decay(in DecayReading reading)
        {
        }
    }
}
