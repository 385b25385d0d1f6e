using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Page.Tuning;
using StrokeWatch.Pipeline;
using StrokeWatch.Session;
using Xunit;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>A trial made of what the running daemon measures.</summary>
public sealed class TuningMeterTests : IMeasurement
{
    private readonly ShiftedTime time = new();
    private readonly TuningMeter meter;
    private double seconds;

    public TuningMeterTests()
    {
        meter = new(ServedPage.Feeder, time);
        meter.Begin(this);
    }

    public MeterSettings? Settings { get; } = new()
    {
        Axes = [],
        RateHz = 4000,
        NominalHz = 50,
        StillBelowMetres = 1e-4,
        Contributions = new([new(StrokeContributions.Sensitivity, 0.005, double.PositiveInfinity, "given")], sensitivityAssumed: false),
    };

    public JitterReading? Jitter => null;

    public double HiddenCut => 0;

    public OrientationReading? TakeOrientation() => null;

    [Fact]
    public async Task Only_what_comes_after_it_was_asked_for_counts_and_a_stop_that_is_read_late_counts_still()
    {
        Pass(4, 1.95e-3, Verdict.OverStroke);
        meter.Decay(new(1, 70, 0.02, 0.01));
        var measured = Begin();
        Pass(12, 1.70e-3, Verdict.InBand);
        Assert.Contains("Now switch the feeder off", Assert.Single(meter.Progress!.Words), StringComparison.Ordinal);
        Assert.Equal(0, meter.Progress.LeftSeconds!.Value, 0.51);
        meter.Decay(new(seconds - 1, 66, 0.02, 0.01));
        var (reading, trouble) = await measured;
        Assert.Null(trouble);
        Assert.Equal((1.70, 66.0, false, "in-band"), (Math.Round(reading!.Trial.StrokeMetres!.Value * 1e3, 6), reading.Trial.NaturalHz!.Value, reading.Danger, reading.Trial.Verdict));
        Assert.Null(meter.Progress);
    }

    [Fact]
    public async Task A_danger_that_arises_or_stood_before_is_the_first_thing_said_and_the_reading_s_danger()
    {
        foreach (var before in (bool[])[true, false])
        {
            if (before)
            {
                meter.Alarm(Over(true));
            }

            var measured = Begin();
            Pass(6, 1.95e-3, Verdict.OverStroke);
            if (!before)
            {
                meter.Alarm(Over(true));
            }

            Assert.StartsWith("STOP THE FEEDER NOW", meter.Progress!.Words[0], StringComparison.Ordinal);
            meter.End();
            Assert.True((await measured).Reading!.Danger);
            meter.Alarm(Over(false));
        }
    }

    [Fact]
    public async Task Without_a_sensor_it_says_what_to_look_at()
    {
        var measured = Begin();
        meter.End();
        var (reading, trouble) = await measured;
        Assert.Null(reading);
        Assert.Contains("check plug, cable and supply", trouble, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_samples_of_a_measurement_are_left_as_a_capture_and_none_where_it_cannot_be_written()
    {
        var folder = Directory.CreateTempSubdirectory("strokewatch-trial-").FullName;
        try
        {
            foreach (var (stem, left) in ((string, bool)[])[(Path.Combine(folder, "captures", "sand.trial"), true), (Path.Combine(folder, "captures", "sand.trial.wav", "x"), false)])
            {
                var keeps = new TuningMeter(ServedPage.Feeder, time) { Recorder = new([[]], time), CaptureStem = () => stem };
                keeps.Begin(this);
                var info = new StrokeWatch.Samples.Sources.SourceInfo { Format = "frames", Axes = [StrokeWatch.Samples.Blocks.Axis.X, StrokeWatch.Samples.Blocks.Axis.Y, StrokeWatch.Samples.Blocks.Axis.Z], RateHz = 1000, FullScale = 313.8 };

                // What comes before anybody asks, and after it is over, is not held.
                keeps.Take(0, Block(5), info);
                var measured = Task.Run(() => keeps.Measure(5, () => keeps.Take(0, Block(7), info), CancellationToken.None));
                SpinWait.SpinUntil(() => keeps.Progress is not null, TimeSpan.FromSeconds(5));
                for (var i = 0; i < 3; i++)
                {
                    keeps.Window(new AssessedWindow(new() { StartSeconds = i * 0.5, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running, StrokeMetres = 1.7e-3, FrequencyHz = 50 }, Verdict.InBand));
                }

                keeps.End();
                var (reading, trouble) = await measured;
                Assert.Null(trouble);
                Assert.Equal(left ? stem + ".wav" : null, reading!.Trial.Capture);
                if (left)
                {
                    using var source = StrokeWatch.Samples.Captures.CaptureFile.Open(stem + ".wav");
                    var block = new StrokeWatch.Samples.Blocks.SampleBlock(3, 2000);
                    Assert.Equal(StrokeWatch.Samples.Sources.SourceState.Samples, source.Read(block));
                    Assert.Equal(1000, block.Count);
                    Assert.Equal(7, block[0][0], 1e-4);
                    Assert.Equal([stem + ".wav"], Directory.GetFiles(Path.Combine(folder, "captures")));
                }
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static StrokeWatch.Samples.Blocks.SampleBlock Block(double value)
    {
        var block = new StrokeWatch.Samples.Blocks.SampleBlock(3, 1000) { RateHz = 1000 };
        for (var channel = 0; channel < 3; channel++)
        {
            block.Fill(channel).Fill(value);
        }

        block.SetCount(1000);
        return block;
    }

    private static AlarmTransition Over(bool raised) => new(AlarmKind.OverStroke, raised, 1, 1.95e-3, "OVER-STROKE.");

    private Task<(SessionReading? Reading, string? Trouble)> Begin()
    {
        var began = new ManualResetEventSlim();
        var measured = Task.Run(() => meter.Measure(5, began.Set, CancellationToken.None));
        began.Wait();
        return measured;
    }

    private void Pass(int windows, double stroke, Verdict verdict)
    {
        for (var i = 0; i < windows; i++)
        {
            meter.Window(new AssessedWindow(
                new() { StartSeconds = seconds, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running, StrokeMetres = stroke, UncertaintyMetres = 2e-5, FrequencyHz = 50 }, verdict));
            seconds += 0.5;
        }
    }
}
