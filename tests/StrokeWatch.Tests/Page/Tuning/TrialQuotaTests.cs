using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Page.Tuning;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Session;
using StrokeWatch.Tests.Outputs.Book;
using StrokeWatch.Tests.Page.Access;
using Xunit;

namespace StrokeWatch.Tests.Page.Tuning;

/// <summary>What the tuning session on the page measures stays within its quota, and what the newest session rests on stays at all.</summary>
public sealed class TrialQuotaTests : IDisposable, IMeasurement
{
    private const string Oldest = "cullet.trial-20260101T080000Z.wav", Older = "cullet.trial-20260201T080000Z.wav", First = "cullet.trial-20260329T120000Z.wav";
    private const int Bytes = 100_000;
    private readonly BookFolder folder = new();
    private readonly FakeTimeProvider time = new(BookFolder.Noon.AddMinutes(9));
    private readonly TuningSettings settings;

    public TrialQuotaTests()
    {
        settings = new(ServedPage.Feeder, folder.File, BookRenames: false, Baseline: null) { CaptureBytes = 4 * Bytes };
        foreach (var name in (string[])[Oldest, Older, First])
        {
            File.WriteAllBytes(Path.Combine(folder.Folder, name), new byte[Bytes]);
        }

        using var book = folder.Open();
        var past = book.Sessions.Begin("Cullet feeder", BookFolder.Noon.AddDays(-60), "Kim", "cautions", "{}");
        _ = book.Sessions.Record(past, BookFolder.Move("cautions", "over") with { State = BookSessionState.Done, Trial = new() { Utc = BookFolder.Noon.AddDays(-60), Rear = "5x4.0", Verdict = "low", Capture = Older } });
        var newest = book.Sessions.Begin("Cullet feeder", BookFolder.Noon, "Kim", "cautions", "{}");
        _ = book.Sessions.Record(newest, BookFolder.Move("cautions", "measure") with { Trial = new() { Utc = BookFolder.Noon, Rear = "5x4.0", Verdict = "low", Capture = First } });
    }

    MeterSettings? IMeasurement.Settings { get; } = new()
    {
        Axes = [Axis.X, Axis.Y, Axis.Z],
        RateHz = 1000,
        NominalHz = 50,
        StillBelowMetres = 1e-4,
        Contributions = new([new(StrokeContributions.Sensitivity, 0.005, double.PositiveInfinity, "given")], sensitivityAssumed: false),
    };

    JitterReading? IMeasurement.Jitter => null;

    double IMeasurement.HiddenCut => 0;

    OrientationReading? IMeasurement.TakeOrientation() => null;

    public void Dispose() => folder.Dispose();

    [Fact]
    public void The_oldest_go_those_of_the_newest_session_never()
    {
        Assert.Empty(settings.MakeRoom(Bytes));
        Assert.Equal([Oldest], settings.MakeRoom(2 * Bytes));
        Assert.Equal([Older], settings.MakeRoom(3 * Bytes));
        Assert.Contains("in use or kept", Assert.Throws<IOException>(() => settings.MakeRoom(4 * Bytes)).Message, StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(folder.Folder, First)));
    }

    [Fact]
    public async Task A_measurement_makes_room_for_its_own_capture_and_where_there_is_none_counts_without()
    {
        var (reading, _) = await Measure(settings with { CaptureBytes = 6 * Bytes });
        Assert.NotNull(reading!.Trial.Capture);
        Assert.Equal([Older, First, Path.GetFileName(reading.Trial.Capture!)], Left());

        var (without, trouble) = await Measure(settings with { CaptureBytes = Bytes });
        Assert.Null(trouble);
        Assert.Null(without!.Trial.Capture);
        Assert.Equal([Older, First, Path.GetFileName(reading.Trial.Capture!)], Left());
    }

    private IEnumerable<string> Left() => Directory.GetFiles(folder.Folder, "*.wav").Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal);

    private async Task<(SessionReading? Reading, string? Trouble)> Measure(TuningSettings settings)
    {
        var meter = new TuningMeter(ServedPage.Feeder, time) { Recorder = new([[]], time), CaptureStem = () => settings.CaptureStem(time.GetUtcNow()), MakeRoom = settings.MakeRoom };
        meter.Begin(this);
        var info = new SourceInfo { Format = "frames", Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = 1000, FullScale = 313.8 };
        var block = new SampleBlock(3, 1000) { RateHz = 1000 };
        block.SetCount(1000);
        var measured = Task.Run(() => meter.Measure(20, () => meter.Take(0, block, info), CancellationToken.None));
        SpinWait.SpinUntil(() => meter.Progress is not null, TimeSpan.FromSeconds(5));
        for (var i = 0; i < 3; i++)
        {
            meter.Window(new AssessedWindow(new() { StartSeconds = i * 0.5, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running, StrokeMetres = 1.7e-3, FrequencyHz = 50 }, Verdict.InBand));
        }

        meter.End();
        return await measured;
    }
}
