using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Stretches;

/// <summary>Gathers one stretch of running; it ends itself, so that its memory is bounded.</summary>
public sealed class StretchBuilder
{
    private readonly StretchSettings settings;
    private readonly ReportBuilder report;
    private readonly DateTimeOffset from;
    private readonly double startSeconds;
    private double steadySeconds;
    private double missingSeconds;
    private double measuredSeconds;

    /// <summary>Begins a stretch.</summary>
    /// <param name="feeder">The feeder.</param>
    /// <param name="settings">How running is cut.</param>
    /// <param name="from">When the first window began.</param>
    /// <param name="startSeconds">The same on the source's axis of time.</param>
    public StretchBuilder(FeederDescription feeder, StretchSettings settings, DateTimeOffset from, double startSeconds)
    {
        (this.settings, this.from, this.startSeconds) = (settings, from, startSeconds);
        report = new(feeder);
        EndSeconds = startSeconds;
    }

    /// <summary>Gets the end so far in seconds on the source's axis of time.</summary>
    public double EndSeconds { get; private set; }

    /// <summary>Gets its beginning in seconds on the source's axis of time.</summary>
    public double StartSeconds => startSeconds;

    /// <summary>Gets why it has ended; null while it has not.</summary>
    public StretchEnd? Ended { get; private set; }

    /// <summary>Gets or sets whether an alarm stood in it.</summary>
    public bool Alarm { get; set; }

    /// <summary>Gets whether it holds enough steady running to tell anything.</summary>
    public bool Tells => steadySeconds >= settings.LeastSeconds;

    /// <summary>Says whether a stretch begins with a window: a tray that stands still, and a sensor that is away, begin none.</summary>
    public static bool Begins(in AssessedWindow window) =>
        window.Reading is { Motion: not MotionState.Stopped, Quality: not WindowQuality.Gap };

    /// <summary>Takes a window; one in which the tray stands still is no part of the stretch, and ends it where it is long enough to end.</summary>
    /// <param name="window">The window.</param>
    /// <param name="sensors">What several sensors showed in it; null where there is one, or nothing came from them.</param>
    public void Add(in AssessedWindow window, in SeveralReading? sensors = null)
    {
        var reading = window.Reading;
        if (reading.Motion == MotionState.Stopped && reading.Quality != WindowQuality.Gap)
        {
            var lasted = EndSeconds - startSeconds >= settings.StopEndsSeconds && Tells;
            Ended = lasted || reading.StartSeconds - EndSeconds >= settings.StandstillSeconds ? StretchEnd.Stop : null;
            return;
        }

        if (reading.Quality == WindowQuality.Gap && reading.LengthSeconds >= settings.GapSeconds)
        {
            Ended = StretchEnd.Gap;
            return;
        }

        report.Add(window);
        if (sensors is { } several)
        {
            report.Add(several);
        }

        EndSeconds = reading.StartSeconds + reading.LengthSeconds;
        missingSeconds += reading.Quality == WindowQuality.Gap ? reading.LengthSeconds : 0;
        measuredSeconds += reading.Quality == WindowQuality.Gap ? 0 : reading.LengthSeconds;
        steadySeconds += reading.StrokeMetres is not null && window.Verdict is not (Verdict.Unmeasurable or Verdict.Stopped) ? reading.LengthSeconds : 0;
        if (EndSeconds - startSeconds >= settings.LongestSeconds)
        {
            Ended = StretchEnd.Full;
        }
    }

    /// <summary>Takes the free decay of a stop.</summary>
    public void Add(in DecayReading decay) => report.Add(decay);

    /// <summary>Takes what the beat of a start told.</summary>
    public void Add(in StartReading start) => report.Add(start);

    /// <summary>Ends it.</summary>
    public void End(StretchEnd why) => Ended ??= why;

    /// <summary>Sums up; costs some milliseconds an hour, and may be done on another thread once nothing more is added.</summary>
    /// <param name="contributions">What does not shrink with averaging, by name.</param>
    /// <param name="stations">The sensors, where there are several.</param>
    /// <param name="orientation">Where gravity and motion stood over the stretch; null where it was not tallied.</param>
    /// <param name="axes">Number of the one sensor's axes.</param>
    /// <param name="jitter">What unsteady sampling did; null where the contributions state it.</param>
    /// <param name="rateHz">Rate of the samples, above 0.</param>
    public Stretch Build(
        StrokeContributions contributions, IReadOnlyList<StationSettings> stations, OrientationReading? orientation, int axes, JitterReading? jitter, double rateHz)
    {
        var built = report.Build(contributions, stations, orientation, axes, jitter);
        var features = CaptureFeatures.Of(built, (long)Math.Round(measuredSeconds * rateHz), (long)Math.Round(missingSeconds * rateHz));
        var least = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"it ran steadily for {steadySeconds:0} s; {settings.LeastSeconds:0} s are needed to tell anything");
        return new(from, EndSeconds - startSeconds, Ended ?? StretchEnd.Over, Alarm, Tells ? features : features with { Reason = features.Reason ?? least });
    }
}
