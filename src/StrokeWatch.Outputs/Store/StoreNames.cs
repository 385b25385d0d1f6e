using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Outputs.Store;

/// <summary>The words that stand in the database, read back; and those of events, which only the store has.</summary>
internal static class StoreNames
{
    private static readonly Dictionary<string, Verdict> Verdicts = Enum.GetValues<Verdict>().ToDictionary(Names.Of);
    private static readonly Dictionary<string, AlarmKind> Alarms = Enum.GetValues<AlarmKind>().ToDictionary(Names.Of);
    private static readonly Dictionary<string, WindowQuality> Qualities = Enum.GetValues<WindowQuality>().ToDictionary(Names.Of);
    private static readonly Dictionary<string, MotionState> Motions = Enum.GetValues<MotionState>().ToDictionary(Names.Of);
    private static readonly Dictionary<string, StretchEnd> Ends = Enum.GetValues<StretchEnd>().ToDictionary(Names.Of);
    private static readonly Dictionary<string, AlarmState> States = Enum.GetValues<AlarmState>().ToDictionary(Names.Of);
    private static readonly Dictionary<string, AlarmAct> Acts = Enum.GetValues<AlarmAct>().ToDictionary(Names.Of);
    private static readonly Dictionary<string, StoreEventKind> Events = Enum.GetValues<StoreEventKind>().ToDictionary(Of);

    /// <summary>Gives an event's word.</summary>
    public static string Of(StoreEventKind kind) => kind switch
    {
        StoreEventKind.Start => "start",
        StoreEventKind.Stop => "stop",
        StoreEventKind.SensorLost => "sensor-lost",
        StoreEventKind.SensorBack => "sensor-back",
        StoreEventKind.Gap => "gap",
        StoreEventKind.CoastDown => "coast-down",
        StoreEventKind.StartUp => "start-up",
        StoreEventKind.Configuration => "configuration",
        StoreEventKind.Baseline => "baseline",
        StoreEventKind.StoreReplaced => "store-replaced",
        StoreEventKind.StoreGap => "store-gap",
        StoreEventKind.Clock => "clock",
        _ => "store-trouble",
    };

    /// <summary>Reads a verdict's word; a word of a later version reads as unmeasurable.</summary>
    public static Verdict Verdict(string word) => Verdicts.GetValueOrDefault(word, Assessment.Verdicts.Verdict.Unmeasurable);

    /// <summary>Reads an alarm's word; a word of a later version reads as unmeasurable.</summary>
    public static AlarmKind Alarm(string word) => Alarms.GetValueOrDefault(word, AlarmKind.Unmeasurable);

    /// <summary>Reads the word of an alarm's state; null for a word of a later version.</summary>
    public static AlarmState? State(string word) => States.TryGetValue(word, out var state) ? state : null;

    /// <summary>Reads the word of what happened to an alarm; null for a word of a later version.</summary>
    public static AlarmAct? Act(string word) => Acts.TryGetValue(word, out var act) ? act : null;

    /// <summary>Reads a quality's word; a word of a later version reads as noisy, which counts for nothing.</summary>
    public static WindowQuality Quality(string word) => Qualities.GetValueOrDefault(word, WindowQuality.Noisy);

    /// <summary>Reads a motion's word; a word of a later version reads as unknown.</summary>
    public static MotionState Motion(string word) => Motions.GetValueOrDefault(word, MotionState.Unknown);

    /// <summary>Reads the word for why a stretch ended; a word of a later version reads as the program's end.</summary>
    public static StretchEnd End(string word) => Ends.GetValueOrDefault(word, StretchEnd.Over);

    /// <summary>Reads an event's word; null for a word of a later version.</summary>
    public static StoreEventKind? Event(string word) => Events.TryGetValue(word, out var kind) ? kind : null;
}
