using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Assessment.Alarms;

/// <summary>The alarms of one feeder: raised and cleared from windows, verdicts and silence.</summary>
public sealed class AlarmBook
{
    /// <summary>Those that a capture tells as well as the daemon, in the order in which they are stepped.</summary>
    private static readonly AlarmKind[] Measured =
    [
        AlarmKind.OverStroke, AlarmKind.Strike, AlarmKind.HighStroke, AlarmKind.LowStroke, AlarmKind.SensorClipped, AlarmKind.SensorLost, AlarmKind.Unmeasurable,
    ];

    private readonly StrokeBand band;
    private readonly (AlarmKind Kind, DelayedAlarm Alarm)[] alarms;
    private readonly DelayedAlarm lost;
    private double silent;

    /// <summary>Makes the alarms of a feeder, all clear.</summary>
    public AlarmBook(StrokeBand band, AlarmDelays delays)
    {
        this.band = band;
        var table = AlarmTable.Of(delays);
        alarms = [.. Measured.Select(kind => (kind, new DelayedAlarm(table[kind].OnSeconds, table[kind].OffSeconds)))];
        lost = alarms.First(row => row.Kind == AlarmKind.SensorLost).Alarm;
    }

    /// <summary>Gets the active alarms.</summary>
    public IEnumerable<AlarmKind> Active => alarms.Where(row => row.Alarm.Active).Select(row => row.Kind);

    /// <summary>Takes a window with its verdict and gives the alarms raised or cleared at its end.</summary>
    public void Take(in WindowReading window, Verdict verdict, Action<AlarmTransition> changed)
    {
        var end = window.StartSeconds + window.LengthSeconds;
        bool? placed = verdict == Verdict.Unmeasurable ? null : false;
        foreach (var (kind, alarm) in alarms)
        {
            bool? condition = kind switch
            {
                AlarmKind.OverStroke => placed is null ? null : verdict == Verdict.OverStroke,
                AlarmKind.HighStroke => placed is null ? null : verdict == Verdict.High,
                AlarmKind.LowStroke => placed is null ? null : verdict == Verdict.Low,
                AlarmKind.Strike => window.StrikeScore is null && verdict != Verdict.Stopped ? null : window.Strike,
                AlarmKind.SensorClipped => window.Quality == WindowQuality.Gap ? null : window.Quality == WindowQuality.Clipped || window.ClippedSamples > 0,
                AlarmKind.SensorLost => window.Quality == WindowQuality.Gap,
                _ => Unmeasurable(window),
            };

            // A gap that was silence on its way here has been counted as that.
            var counted = kind == AlarmKind.SensorLost && window.Quality == WindowQuality.Gap ? silent : 0;
            Step(kind, alarm, condition, Math.Max(0, window.LengthSeconds - counted), end, window, changed);
        }

        silent = 0;
    }

    /// <summary>Says that nothing has come from the sensor for a time; gives the lost-sensor alarm once its delay is over.</summary>
    public void Silence(double untilSeconds, double silentSeconds, Action<AlarmTransition> changed)
    {
        silent += silentSeconds;
        Step(AlarmKind.SensorLost, lost, true, silentSeconds, untilSeconds, default, changed);
    }

    private static string Words(in WindowReading window) =>
        window.StrokeMetres is null && window.AtLeastMetres is { } bound
            ? $"at least {Length.FromMetres(bound)} ({(window.MayBeClipped ? "the sensor may clip" : "the sensor clips")})"
            : BandJudge.Words(window.StrokeMetres);

    /// <summary>Writes the most that any place on the tray moves, and which place that is.</summary>
    private static string Peak(in WindowReading window) =>
        window.LargestMetres is not { } largest || window.LargestPlace is not { } place ? Words(window)
        : window.AtLeastMetres > largest ? $"at least {Length.FromMetres(window.AtLeastMetres.Value)} ({(window.ClippedSamples > 0 ? "a sensor clips" : "a sensor may clip")})"
        : $"{Length.FromMetres(largest)} at the sensor {SensorPlaces.Name(place)}";

    private static bool? Unmeasurable(in WindowReading window) => window.Quality switch
    {
        WindowQuality.Good => window.FailingPlace is not null,
        WindowQuality.Transient when window.Motion != MotionState.Running => false,
        WindowQuality.Gap or WindowQuality.Clipped => null,
        _ => true,
    };

    private void Step(
        AlarmKind kind, DelayedAlarm alarm, bool? condition, double seconds, double at, in WindowReading window, Action<AlarmTransition> changed)
    {
        if (alarm.Step(condition, seconds))
        {
            changed(new(kind, alarm.Active, at, window.StrokeMetres, alarm.Active ? Raised(kind, window) : Cleared(kind, window)));
        }
    }

    private string Raised(AlarmKind kind, in WindowReading window) => kind switch
    {
        AlarmKind.OverStroke => $"OVER-STROKE: {Peak(window)}, limit {band.Limit}. Stop the feeder.",
        AlarmKind.Strike => $"ARMATURE STRIKE: the armature hits the core; stroke {Words(window)}. Stop the feeder.",
        AlarmKind.HighStroke => $"Stroke high: {Words(window)}, top of the band {band.High}.",
        AlarmKind.LowStroke => $"Stroke low: {Words(window)}, bottom of the band {band.Low}.",
        AlarmKind.SensorClipped when window.StrokeMetres is not null =>
            "One of several sensors at its rail: its own stroke cannot be measured. Use a sensor of larger range, or look for hammering.",
        AlarmKind.SensorClipped => "Sensor at its rail: the stroke cannot be measured. Use a sensor of larger range, or look for hammering.",
        AlarmKind.SensorLost => "Sensor lost: nothing is measured. Check the sensor's cable and supply.",
        AlarmKind.Unmeasurable when window.FailingPlace is { } place =>
            $"Sensor {SensorPlaces.Name(place)} gives no stroke though another does. Check its cable, plug, supply and mounting.",
        AlarmKind.Unmeasurable when window.MayBeClipped =>
            "Stroke not measurable: each cycle is flat as a sensor's rail would cut it, or the machine shakes so. Write the sensor's range, full_scale_g, into the feeder file: then it can be told.",
        _ => "Stroke not measurable: samples come, but other vibration or noise hides the stroke. Check the sensor's mounting.",
    };

    private string Cleared(AlarmKind kind, in WindowReading window) => kind switch
    {
        AlarmKind.OverStroke => $"Over-stroke is over; stroke {Words(window)}.",
        AlarmKind.Strike => $"No more armature strike; stroke {Words(window)}.",
        AlarmKind.HighStroke => Elsewhere(window, band.High) ?? $"Stroke no longer high: {Words(window)}.",
        AlarmKind.LowStroke => Elsewhere(window, band.Low) ?? $"Stroke no longer low: {Words(window)}.",
        AlarmKind.SensorClipped => "Sensor no longer at its rail.",
        AlarmKind.SensorLost => "Sensor is back.",
        _ => "Stroke can be measured again.",
    };

    /// <summary>Says where the stroke has gone where it left one side of the band for something that is not well either; null where it came back into the band.</summary>
    private string? Elsewhere(in WindowReading window, Length left) =>
        window.PeakMetres > band.Limit.Metres ? $"Stroke {(left == band.High ? "no longer only high" : "no longer low")} but over the limit: {Peak(window)}."
        : window.StrokeMetres is not { } stroke ? null
        : stroke > band.High.Metres ? $"Stroke no longer low but high: {Words(window)}."
        : stroke < band.Low.Metres && window.Motion == MotionState.Running ? $"Stroke no longer high but low: {Words(window)}."
        : null;
}
