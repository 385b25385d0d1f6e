using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Sensors.Simulated.Histories;

namespace StrokeWatch.Pipeline;

/// <summary>Replays a simulated history without files: the same measurement as of captures on disk.</summary>
internal static class SimulatedHistory
{
    /// <summary>Simulates and replays every capture, and gives the history that a replay of their files would.</summary>
    public static HistoryReport Run(FaultHistory history) => new(history.Feeder, history.Captures.Select(capture => Point(history, capture)));

    private static HistoryPoint Point(FaultHistory history, HistoryCapture capture)
    {
        using var source = new SimulatedFeederSource(capture.Scenario);
        var name = RecordedDate.Text(capture.Recorded);
        return new(name, capture.Recorded, false, Replayer.Run(name, source, history.Feeder, new AlarmDelays()).Features);
    }
}
