using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment;

/// <summary>The names that files, JSON and the store use; they never change once written.</summary>
public static class Names
{
    /// <summary>Gives a verdict's name.</summary>
    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.InBand => "in-band",
        Verdict.Low => "low",
        Verdict.High => "high",
        Verdict.OverStroke => "over-stroke",
        Verdict.Stopped => "stopped",
        _ => "unmeasurable",
    };

    /// <summary>Gives an alarm's name.</summary>
    public static string Of(AlarmKind kind) => kind switch
    {
        AlarmKind.OverStroke => "over-stroke",
        AlarmKind.Strike => "strike",
        AlarmKind.HighStroke => "high-stroke",
        AlarmKind.LowStroke => "low-stroke",
        AlarmKind.SensorClipped => "sensor-clipped",
        AlarmKind.SensorLost => "sensor-lost",
        AlarmKind.MachineChanged => "machine-changed",
        AlarmKind.SensorStuck => "sensor-stuck",
        AlarmKind.StoreTrouble => "store-trouble",
        AlarmKind.OutputTrouble => "output-trouble",
        _ => "unmeasurable",
    };

    /// <summary>Reads an alarm's name.</summary>
    public static bool TryParse(string text, out AlarmKind kind)
    {
        foreach (var known in Enum.GetValues<AlarmKind>())
        {
            if (Of(known) == text)
            {
                kind = known;
                return true;
            }
        }

        kind = default;
        return false;
    }

    /// <summary>Gives the name of an alarm's state.</summary>
    public static string Of(AlarmState state) => state switch
    {
        AlarmState.Normal => "normal",
        AlarmState.Unacknowledged => "unacknowledged",
        AlarmState.Acknowledged => "acknowledged",
        AlarmState.ReturnedUnacknowledged => "returned-unacknowledged",
        AlarmState.LatchedUnacknowledged => "latched-unacknowledged",
        AlarmState.LatchedAcknowledged => "latched-acknowledged",
        AlarmState.Shelved => "shelved",
        AlarmState.SuppressedByDesign => "suppressed-by-design",
        _ => "out-of-service",
    };

    /// <summary>Gives the name of what happened to an alarm.</summary>
    public static string Of(AlarmAct act) => act switch
    {
        AlarmAct.Activate => "activate",
        AlarmAct.Clear => "clear",
        AlarmAct.Acknowledge => "acknowledge",
        AlarmAct.Reset => "reset",
        AlarmAct.Shelve => "shelve",
        AlarmAct.Unshelve => "unshelve",
        AlarmAct.ShelfEnds => "shelf-ends",
        AlarmAct.Suppress => "suppress",
        AlarmAct.Unsuppress => "unsuppress",
        AlarmAct.TakeOutOfService => "out-of-service",
        _ => "in-service",
    };

    /// <summary>Gives a priority's name.</summary>
    public static string Of(AlarmPriority priority) => priority switch
    {
        AlarmPriority.High => "high",
        AlarmPriority.Medium => "medium",
        _ => "low",
    };

    /// <summary>Gives a quality's name.</summary>
    public static string Of(WindowQuality quality) => quality switch
    {
        WindowQuality.Good => "good",
        WindowQuality.Clipped => "clipped",
        WindowQuality.Gap => "gap",
        WindowQuality.Transient => "transient",
        _ => "noisy",
    };

    /// <summary>Gives the name of why a stretch of running ended.</summary>
    public static string Of(StretchEnd end) => end switch
    {
        StretchEnd.Full => "full",
        StretchEnd.Stop => "stop",
        StretchEnd.Gap => "gap",
        _ => "over",
    };

    /// <summary>Gives the name of a side of the tuning curve.</summary>
    public static string Of(TuningSide side) => side switch
    {
        TuningSide.Normal => "normal",
        TuningSide.Reverse => "reverse",
        _ => "unknown",
    };

    /// <summary>Gives a motion's name.</summary>
    public static string Of(MotionState motion) => motion switch
    {
        MotionState.Stopped => "stopped",
        MotionState.Starting => "starting",
        MotionState.Running => "running",
        MotionState.CoastingDown => "coasting-down",
        _ => "unknown",
    };
}
