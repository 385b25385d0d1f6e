using Microsoft.Data.Sqlite;
using Serilog;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>The last steps of a feeder's alarms that the store holds.</summary>
internal static class KeptAlarms
{
    /// <summary>Reads them; none where there is no file yet, or it cannot be read, which is logged.</summary>
    public static IReadOnlyList<AlarmStep> Read(string path, string feeder, ILogger log)
    {
        if (!File.Exists(path))
        {
            return [];
        }

        try
        {
            using var reader = new StoreReader(path);
            return reader.LastSteps(feeder, AlarmView.MostSteps);
        }
        catch (SqliteException trouble)
        {
            log.Warning("The journal of alarms cannot be read ({Trouble:l}); all alarms begin as normal", trouble.Message.ReplaceLineEndings(" "));
            return [];
        }
    }
}
