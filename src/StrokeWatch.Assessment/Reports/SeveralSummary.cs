namespace StrokeWatch.Assessment.Reports;

/// <summary>What several sensors showed over a capture, and how they differ.</summary>
/// <param name="Sensors">Each sensor, in the order of the feeder file.</param>
/// <param name="FrontRear">Front against rear.</param>
/// <param name="LeftRight">Left against right.</param>
/// <param name="Relative">Tray against body.</param>
public sealed record SeveralSummary(IReadOnlyList<SensorSummary> Sensors, SpreadSummary FrontRear, SpreadSummary LeftRight, RelativeSummary Relative)
{
    /// <summary>Gets the start of each window in seconds with the strokes of its sensors in metres, in the order of <see cref="Sensors"/>; null where one does not count.</summary>
    public required IReadOnlyList<(double StartSeconds, IReadOnlyList<double?> Strokes)> Windows { get; init; }
}
