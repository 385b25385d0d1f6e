using Microsoft.Data.Sqlite;
using Serilog;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Pipeline;

/// <summary>Reads the stretches of running that a store holds from before the program started.</summary>
internal static class KeptStretches
{
    /// <summary>As many as trends remember and learning needs, and more.</summary>
    private const int Most = 2000;

    /// <summary>Gives the newest stretches, in order; none where there is no store yet, or where it cannot be read, which the log then says.</summary>
    public static IReadOnlyList<Stretch> Read(string path, string feeder, ILogger log)
    {
        if (!File.Exists(path))
        {
            return [];
        }

        try
        {
            using var reader = new StoreReader(path);
            return [.. reader.NewestStretches(feeder, Most).Select(stored => stored.Stretch)];
        }
        catch (SqliteException trouble)
        {
            log.Warning("Over weeks: what the store holds cannot be read ({Trouble:l}); the machine is followed from now on only", trouble.Message.ReplaceLineEndings(" "));
            return [];
        }
    }
}
