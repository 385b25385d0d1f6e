using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Outputs.Store;

/// <summary>A capture of what was measured around an alarm.</summary>
/// <param name="Id">The alarm.</param>
/// <param name="At">When it was raised, in UTC.</param>
/// <param name="File">The capture's name in the folder of captures; several alarms close together share one.</param>
/// <param name="From">When the capture's first sample was taken, in UTC.</param>
/// <param name="LengthSeconds">How long it is.</param>
/// <param name="LostSamples">Samples missing in it: those the sensor lost, and those that came faster than the disk took them.</param>
/// <param name="Whole">False where it ended early: the program was stopped, or nothing more came from the sensor.</param>
public sealed record AlarmWaveform(AlarmId Id, DateTimeOffset At, string File, DateTimeOffset From, double LengthSeconds, long LostSamples, bool Whole)
{
    /// <summary>Gets when the capture was removed to make room, in UTC; null while it is there.</summary>
    public DateTimeOffset? Removed { get; init; }
}
