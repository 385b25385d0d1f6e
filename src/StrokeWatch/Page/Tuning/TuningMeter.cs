using Serilog;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Session;

namespace StrokeWatch.Page.Tuning;

/// <summary>Makes a trial of what the running daemon measures: the session has no sensor of its own, and the daemon goes on watching and alarming meanwhile.</summary>
internal sealed class TuningMeter(FeederDescription feeder, TimeProvider time) : IChainListener
{
    /// <summary>A stop is read beside the measurement, so that what it tells may come a little later than its windows.</summary>
    private const double DecaySeconds = 2;

    private const double PatienceSeconds = 10;

    /// <summary>A window is under way when the measurement is asked for, and a stop is read after its end.</summary>
    private const double SpareSeconds = 5;

    private readonly Lock gate = new();
    private readonly HashSet<AlarmKind> standing = [];
    private IMeasurement? measurement;
    private Run? run;

    /// <summary>Gets what keeps the samples of a measurement; null where no capture is left.</summary>
    public SpanRecorder? Recorder { get; init; }

    /// <summary>Gets what gives the path, without its end, of a capture begun now.</summary>
    public Func<string?>? CaptureStem { get; init; }

    /// <summary>Gets what makes room for a capture of so many bytes, and gives the names of those that went for it.</summary>
    public Func<long, IReadOnlyList<string>> MakeRoom { get; init; } = _ => [];

    /// <summary>Gets where it is told that a capture could not be left.</summary>
    public ILogger Log { get; init; } = Serilog.Core.Logger.None;

    /// <summary>Takes a block of a device on its way to the measurement; belongs to the thread that measures it.</summary>
    public void Take(int device, SampleBlock block, SourceInfo info) => Recorder?.Take(device, block, info);

    /// <summary>Gives what takes the blocks of the only device.</summary>
    public IBlockListener Only(ISampleSource source) => new OneDevice(this, source);

    /// <summary>Gets how far the measurement is; null where none is made.</summary>
    public MeasureProgress? Progress
    {
        get
        {
            lock (gate)
            {
                return run?.Progress;
            }
        }
    }

    /// <summary>Measures for so long, and waits for it; where nothing came the trouble says so in one line.</summary>
    /// <param name="seconds">How long, in seconds.</param>
    /// <param name="began">Hears that it has begun.</param>
    /// <param name="stop">Ends it.</param>
    public (SessionReading? Reading, string? Trouble) Measure(double seconds, Action began, CancellationToken stop)
    {
        var made = new Run(feeder, seconds);
        lock (gate)
        {
            run = made;
        }

        var stem = CaptureStem?.Invoke();
        Recorder?.Begin(seconds + DecaySeconds + SpareSeconds);
        began();
        try
        {
            made.Over.Task.WaitAsync(TimeSpan.FromSeconds(seconds + DecaySeconds + PatienceSeconds), time, stop).ContinueWith(_ => { }, TaskScheduler.Default).Wait(CancellationToken.None);
        }
        finally
        {
            lock (gate)
            {
                run = null;
            }
        }

        if (stop.IsCancellationRequested || made.First is null || measurement?.Settings is not { } settings)
        {
            Recorder?.Drop();
            return (null, stop.IsCancellationRequested ? "The program is stopping; nothing was measured." : "Nothing came from the sensor; check plug, cable and supply, then try again.");
        }

        return (Read(made, settings, Keep(stem)), null);
    }

    /// <summary>Ends the measurement early, with what there is.</summary>
    public void End()
    {
        lock (gate)
        {
            run?.Over.TrySetResult();
        }
    }

    /// <inheritdoc/>
    public void Begin(IMeasurement measurement) => this.measurement = measurement;

    /// <inheritdoc/>
    public void Several(in SeveralReading reading)
    {
        lock (gate)
        {
            if (run is { First: not null, Measured: false } now)
            {
                now.Builder.Add(reading);
            }
        }
    }

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        lock (gate)
        {
            run?.Take(window, standing);
        }
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
        lock (gate)
        {
            if (run is { First: { } first } now && decay.StartSeconds >= first)
            {
                now.Builder.Add(decay);
                now.Say($"Coast-down: {TransientWords.Of(decay)}.");
                if (now.Measured)
                {
                    now.Over.TrySetResult();
                }
            }
        }
    }

    /// <inheritdoc/>
    public void Start(in StartReading reading)
    {
        lock (gate)
        {
            if (run is { First: not null, Measured: false } now)
            {
                now.Builder.Add(reading);
            }
        }
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
        if (transition.Kind is not (AlarmKind.OverStroke or AlarmKind.Strike))
        {
            return;
        }

        lock (gate)
        {
            _ = transition.Raised ? standing.Add(transition.Kind) : standing.Remove(transition.Kind);
            if (transition.Raised && run is { First: not null, Measured: false } now)
            {
                now.Danger(transition);
            }
        }
    }

    /// <summary>Leaves what was measured as a capture; null where none could be left, for the reading counts without.</summary>
    private string? Keep(string? stem)
    {
        if (Recorder is null || stem is null)
        {
            return null;
        }

        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(stem))!);
            if (MakeRoom(Recorder.Bytes) is { Count: > 0 } gone)
            {
                Log.Information("Page: the captures of {Count} earlier trials were removed to make room", gone.Count);
            }

            return Recorder.End(stem) is [var first, ..] ? first : null;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or BookException)
        {
            Recorder.Drop();
            Log.Warning("Page: no capture was left of what the tuning session measured ({Trouble:l})", trouble.Message.ReplaceLineEndings(" "));
            return null;
        }
    }

    private static SessionReading Read(Run made, Measurement.MeterSettings settings, string? capture)
    {
        var report = made.Builder.Build(settings.Contributions, settings.Stations, null, settings.Axes.Count);
        return TrialMeter.Of(report, CaptureFeatures.Of(report, 0, 0), capture);
    }

    private sealed class OneDevice(TuningMeter meter, ISampleSource source) : IBlockListener
    {
        public void Take(SampleBlock block) => meter.Take(0, block, source.Info);
    }

    /// <summary>One measurement; belongs to whoever holds the gate, and after it is over to the session.</summary>
    private sealed class Run(FeederDescription feeder, double seconds)
    {
        private readonly List<string> words = [];
        private bool begun, told;

        public ReportBuilder Builder { get; } = new(feeder);

        public TaskCompletionSource Over { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public double? First { get; private set; }

        public bool Measured { get; private set; }

        public MeasureProgress Progress { get; private set; } = new(null, null, null, []);

        public void Say(string text)
        {
            words.Add(text);
            Progress = Progress with { Words = [.. words] };
        }

        public void Danger(in AlarmTransition transition)
        {
            Builder.Add(transition);
            words.Insert(0, $"{SessionWords.StopNow[0]} {transition.Words}");
            Progress = Progress with { Words = [.. words] };
        }

        public void Take(in AssessedWindow window, HashSet<AlarmKind> standing)
        {
            // The first window that comes began before anybody asked.
            if (!begun)
            {
                begun = true;
                First = window.Reading.StartSeconds + window.Reading.LengthSeconds;
                foreach (var kind in standing)
                {
                    Danger(new(kind, true, First.Value, null, $"{Names.Of(kind)} stands already."));
                }

                return;
            }

            var (reading, gone) = (window.Reading, window.Reading.StartSeconds + window.Reading.LengthSeconds - First!.Value);
            if (Measured)
            {
                if (gone > seconds + DecaySeconds)
                {
                    Over.TrySetResult();
                }

                return;
            }

            Builder.Add(window);
            var counts = reading is { Quality: WindowQuality.Good, StrokeMetres: not null };
            Progress = new(Math.Max(0, seconds - gone), counts ? reading.StrokeMetres : null, Names.Of(window.Verdict), [.. words]);
            if (!told && gone >= seconds / 2 && reading.Motion == MotionState.Running)
            {
                told = true;
                Say("Now switch the feeder off and let it come to rest; the measurement goes on.");
            }

            Measured = gone >= seconds;
        }
    }
}
