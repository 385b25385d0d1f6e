using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment;

/// <summary>Gives each window its verdict and keeps the alarms of one feeder. Pure: stepped by the windows alone.</summary>
public sealed class FeederAssessor(FeederDescription feeder, AlarmDelays delays)
{
    private readonly BandJudge judge = new(feeder.Band, delays.Hysteresis);

    /// <summary>Gets the alarms.</summary>
    public AlarmBook Alarms { get; } = new(feeder.Band, delays);

    /// <summary>Gives a window's verdict and the alarms that it raises or clears.</summary>
    public Verdict Take(in WindowReading window, Action<AlarmTransition> changed)
    {
        var verdict = window switch
        {
            { Quality: WindowQuality.Good, Motion: MotionState.Stopped } => Verdict.Stopped,
            { Quality: WindowQuality.Good, StrokeMetres: { } stroke } => judge.Next(stroke, window.NoiseMetres ?? 0, window.PeakMetres ?? stroke),
            { StrokeMetres: null, AtLeastMetres: { } bound } when bound > feeder.Band.Limit.Metres => Verdict.OverStroke,
            _ => Verdict.Unmeasurable,
        };
        Alarms.Take(window, verdict, changed);
        return verdict;
    }
}
