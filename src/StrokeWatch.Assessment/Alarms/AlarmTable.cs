namespace StrokeWatch.Assessment.Alarms;

/// <summary>The table of a feeder's alarms: priority, delays, what latches, what means nothing while the feeder is off.</summary>
/// <remarks>
/// The deadband of the stroke's alarms is no column: <see cref="Verdicts.BandJudge"/> takes it from each reading, three standard deviations of its measured noise, half a per cent of
/// the top of the band at least. The delays go with it (<see cref="AlarmDesign"/>, which takes windows as independent): a healthy stroke that stands one deadband inside a bound exceeds it in
/// one window of 740 at most, two running (over-stroke: damage cannot wait) in one of half a million, four running (band) in one of 3 × 10¹¹. The rest is engineering judgement, no source.
/// </remarks>
public sealed class AlarmTable
{
    private static readonly TimeSpan Danger = TimeSpan.FromHours(1);
    private static readonly TimeSpan Shift = TimeSpan.FromHours(12);

    private readonly Dictionary<AlarmKind, AlarmRow> rows;

    private AlarmTable(IEnumerable<AlarmRow> rows) => this.rows = rows.ToDictionary(row => row.Kind);

    /// <summary>Gets the rows.</summary>
    public IReadOnlyCollection<AlarmRow> Rows => rows.Values;

    /// <summary>Gets the row of an alarm.</summary>
    public AlarmRow this[AlarmKind kind] => rows[kind];

    /// <summary>Makes the table with the delays that are configured.</summary>
    public static AlarmTable Of(AlarmDelays delays) => new(
    [
        new(AlarmKind.OverStroke, AlarmPriority.High, delays.DangerOn, delays.DangerOff, Latches: true, OnlyRunning: false, Danger),
        new(AlarmKind.Strike, AlarmPriority.High, delays.DangerOn, delays.DangerOff, Latches: true, OnlyRunning: false, Danger),
        new(AlarmKind.HighStroke, AlarmPriority.Medium, delays.BandOn, delays.BandOff, Latches: false, OnlyRunning: true, Shift),
        new(AlarmKind.LowStroke, AlarmPriority.Low, delays.BandOn, delays.BandOff, Latches: false, OnlyRunning: true, Shift),
        new(AlarmKind.SensorClipped, AlarmPriority.Low, delays.ClippedOn, delays.ClippedOff, Latches: false, OnlyRunning: false, Shift),
        new(AlarmKind.SensorLost, AlarmPriority.Medium, delays.SilenceOn, 0, Latches: false, OnlyRunning: false, Shift),
        new(AlarmKind.SensorStuck, AlarmPriority.Medium, delays.SilenceOn, 0, Latches: false, OnlyRunning: false, Shift),
        new(AlarmKind.Unmeasurable, AlarmPriority.Low, delays.UnmeasurableOn, 0, Latches: false, OnlyRunning: true, Shift),
        new(AlarmKind.MachineChanged, AlarmPriority.Low, 0, 0, Latches: false, OnlyRunning: false, TimeSpan.FromDays(7)),
        new(AlarmKind.StoreTrouble, AlarmPriority.Low, 5, 5, Latches: false, OnlyRunning: false, Shift),
        new(AlarmKind.OutputTrouble, AlarmPriority.Low, 0, 60, Latches: false, OnlyRunning: false, Shift),
    ]);
}
