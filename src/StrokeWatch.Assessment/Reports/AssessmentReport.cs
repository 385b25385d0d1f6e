using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Reports;

/// <summary>All that was measured and alarmed over a capture; what the rules read.</summary>
public sealed record AssessmentReport
{
    /// <summary>Gets the feeder.</summary>
    public required FeederDescription Feeder { get; init; }

    /// <summary>Gets the windows with their verdicts, in order of time.</summary>
    public required IReadOnlyList<AssessedWindow> Windows { get; init; }

    /// <summary>Gets the free decays.</summary>
    public required IReadOnlyList<DecayReading> Decays { get; init; }

    /// <summary>Gets what the beats of the starts told.</summary>
    public IReadOnlyList<StartReading> Starts { get; init; } = [];

    /// <summary>Gets every alarm raised or cleared.</summary>
    public required IReadOnlyList<AlarmTransition> Transitions { get; init; }

    /// <summary>Gets the stroke.</summary>
    public required StrokeSummary Stroke { get; init; }

    /// <summary>Gets the supply and the stroke at full voltage; null where no voltage was captured and the feeder file says nothing of it.</summary>
    public SupplySummary? Supply { get; init; }

    /// <summary>Gets what each of several sensors showed, and how they differ; null where there is one sensor.</summary>
    public SeveralSummary? Sensors { get; init; }

    /// <summary>Gets how the sensor stands and the tray moves in space; null where nothing tallied it.</summary>
    public MountingSummary? Mounting { get; init; }

    /// <summary>Gets the strike.</summary>
    public required StrikeSummary Strike { get; init; }

    /// <summary>Gets orders and noise beside the stroke, medians over steady windows; null where there is none.</summary>
    public LevelSummary? Levels { get; init; }

    /// <summary>Gets the drive frequency in Hz, median over steady windows.</summary>
    public double? FrequencyHz { get; init; }

    /// <summary>Gets the relative error of the sensor's clock, median over steady windows of the longest stretch without a step.</summary>
    public double? ClockError { get; init; }

    /// <summary>Gets the steps of the sensor's clock.</summary>
    public IReadOnlyList<ClockStep> ClockSteps { get; init; } = [];

    /// <summary>Gets what unsteady sampling did, as the signal shows it; null where the signal was not asked, or nothing was measured.</summary>
    public JitterReading? Jitter { get; init; }

    /// <summary>Gets the number of clipped samples.</summary>
    public long ClippedSamples { get; init; }

    /// <summary>Counts windows of a quality.</summary>
    public int Count(WindowQuality quality)
    {
        var count = 0;
        foreach (var window in Windows)
        {
            count += window.Reading.Quality == quality ? 1 : 0;
        }

        return count;
    }
}
