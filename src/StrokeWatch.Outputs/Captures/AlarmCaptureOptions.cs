using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Outputs.Captures;

/// <summary>Of which alarms waveforms are kept, where, and how much of the disk they may take.</summary>
public sealed record AlarmCaptureOptions
{
    /// <summary>Gets the folder; it is made where it is not there.</summary>
    public required string Folder { get; init; }

    /// <summary>Gets the most bytes that captures may take together.</summary>
    public long QuotaBytes { get; init; } = 200_000_000;

    /// <summary>Gets the most bytes that captures of tuning sessions may take together, beside those.</summary>
    public long TrialQuotaBytes { get; init; } = TrialRoom.UsualBytes;

    /// <summary>Gets the names of captures, without extension, that are never removed to make room; a file NAME.keep beside one does the same.</summary>
    public IReadOnlyList<string> Keep { get; init; } = [];

    /// <summary>Gets the alarms whose waveform is kept.</summary>
    public IReadOnlyList<AlarmKind> Kinds { get; init; } = Usual;

    /// <summary>Gets how much is kept from before an alarm.</summary>
    public TimeSpan Before { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Gets how much is kept from after an alarm.</summary>
    public TimeSpan After { get; init; } = TimeSpan.FromSeconds(20);

    /// <summary>Gets for how long a disk may keep the writer waiting before samples are lost.</summary>
    public TimeSpan Lag { get; init; } = TimeSpan.FromSeconds(20);

    /// <summary>Gets the longest capture: alarms that go on coming begin another then.</summary>
    public TimeSpan Longest { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>Gets the bytes of the disk that are left to others; the store needs room more than waveforms do.</summary>
    public long ReserveBytes { get; init; } = 16_000_000;

    /// <summary>Gets the feeder file, a copy of which goes beside each capture; null where there is none.</summary>
    public string? FeederPath { get; init; }

    /// <summary>Gets the alarms of high and medium priority.</summary>
    public static IReadOnlyList<AlarmKind> Usual { get; } =
        [.. AlarmTable.Of(new()).Rows.Where(row => row.Priority is AlarmPriority.High or AlarmPriority.Medium).Select(row => row.Kind)];
}
