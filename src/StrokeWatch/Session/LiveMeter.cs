using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Commands;
using StrokeWatch.Configuration;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Session;

/// <summary>Makes a trial of the live sensor, through the daemon's own chain, and leaves the samples as a capture.</summary>
internal sealed class LiveMeter
{
    private const double PatienceSeconds = 10;

    /// <summary>What is pressed sooner after the start was meant for the question before it.</summary>
    private const double GraceSeconds = 1.5;

    /// <summary>Gets the daemon's configuration, whose sensor is read.</summary>
    public required WatchConfiguration Configuration { get; init; }

    /// <summary>Gets how long it takes, in seconds.</summary>
    public required double Seconds { get; init; }

    /// <summary>Gets where captures are left: the folder and the beginning of their names.</summary>
    public required string CapturePrefix { get; init; }

    /// <summary>Gets where the measurement is shown.</summary>
    public required TextWriter Output { get; init; }

    /// <summary>Gets whether that is a terminal.</summary>
    public required bool Terminal { get; init; }

    /// <summary>Gets the clock.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>Gets whether a key was pressed, which ends the measurement early.</summary>
    public required Func<bool> Pressed { get; init; }

    /// <summary>Measures; where nothing came the trouble says so in one line.</summary>
    public (SessionReading? Reading, string? Trouble) Measure(CancellationToken stop)
    {
        if (Configuration.Ports.Count > 1)
        {
            return (null, "the configuration has sensors on several ports, of which a session can read one; record with strokewatch record --place, and give the capture's name");
        }

        using var over = CancellationTokenSource.CreateLinkedTokenSource(stop);
        using var source = SensorOpening.Open(Configuration.Ports[0], Time, happened => Output.WriteLine("   " + happened.Words));
        var feeder = Configuration.Feeder;
        var builder = new ReportBuilder(feeder);
        var file = string.Create(CultureInfo.InvariantCulture, $"{CapturePrefix}.trial-{Time.GetUtcNow().UtcDateTime:yyyyMMdd'T'HHmmss'Z'}.wav");
        var panel = new MeasurePanel(Output, Terminal, feeder, Seconds, new Recorder(builder));
        var timer = new Timer(source.Info.RateHz, Seconds, over);
        using (var tee = new CaptureTee(
            block => CaptureWriters.Create(file, source.Info.Axes, block.RateHz ?? source.Info.RateHz!.Value, source.Info.FullScale, source.Info.Places, Time.GetUtcNow(), source.Info.HasSupply),
            words => Output.WriteLine("   " + words)))
        using (var desk = new InlineDesk())
        {
            var begun = Time.GetTimestamp();
            new Daemon(feeder, source, Configuration.Alarms, panel, [tee, timer], Time, desk).Run(
                _ =>
                {
                    var gone = Time.GetElapsedTime(begun).TotalSeconds;
                    if ((Pressed() && gone > GraceSeconds) || gone > PatienceSeconds + (timer.Heard ? Seconds : 0))
                    {
                        over.Cancel();
                    }
                },
                over.Token);
        }

        panel.Close();
        if (panel.Chain is not { Settings: { } settings } chain)
        {
            return (null, $"{Configuration.Port.Path}: nothing came from the sensor; check plug, cable, supply and the [sensor] table, then try again");
        }

        var report = builder.Build(settings.Contributions.Hiding(chain.HiddenCut), settings.Stations, chain.Orientation, settings.Axes.Count, chain.Jitter, chain.Orientations);
        return (TrialMeter.Of(report, CaptureFeatures.Of(report, source.Counters.Samples, source.Counters.MissingSamples), File.Exists(file) ? file : null), null);
    }

    /// <summary>Ends a measurement when its time is over, by the sensor's own count of samples.</summary>
    private sealed class Timer(double? statedHz, double seconds, CancellationTokenSource over) : IBlockListener
    {
        private double? until;

        public bool Heard => until is not null;

        public void Take(SampleBlock block)
        {
            until ??= block.StartSeconds + seconds;
            if ((block.RateHz ?? statedHz) is { } rate && block.StartSeconds + ((block.Count + 0.5) / rate) >= until)
            {
                over.Cancel();
            }
        }
    }
}
