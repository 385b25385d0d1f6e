using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Captures;

namespace StrokeWatch.Configuration;

/// <summary>The table [captures] of the daemon's configuration: the waveforms of alarms that are kept.</summary>
internal static class CapturesPart
{
    /// <summary>Reads the table; null where it is not there or not as it must be.</summary>
    /// <param name="root">The configuration.</param>
    /// <param name="path">Its path, from whose folder paths in it count.</param>
    /// <param name="feeder">The feeder file's path.</param>
    public static AlarmCaptureOptions? Read(TableReader root, string path, string feeder)
    {
        if (root.Table("captures") is not { } table)
        {
            return null;
        }

        var folder = table.Text("folder", "the path of a folder in quotes");
        var quota = table.Integer("quota_mb", 10, 1_000_000) ?? 200;
        var trials = table.Integer("trials_mb", 10, 1_000_000) ?? TrialRoom.UsualBytes / 1_000_000;
        var keep = table.Items("keep", "a list of captures' names in quotes", 0, 1000, names: true);
        var before = table.Number("before_s", 1, 60, "s") ?? 10;
        var after = table.Number("after_s", 1, 120, "s") ?? 20;
        var kinds = AlarmKinds.Read(table, "alarms");
        table.Require("folder", "the path of a folder");
        table.Finish();
        if (keep?.Any(name => name is not string) == true)
        {
            table.Refuse("keep", "`keep` holds a number; names of captures in quotes were expected");
        }

        return folder is null ? null : new()
        {
            Folder = FeederFile.Beside(path, folder),
            QuotaBytes = quota * 1_000_000L,
            TrialQuotaBytes = trials * 1_000_000L,
            Keep = [.. (keep ?? []).OfType<string>().Select(name => Path.GetFileNameWithoutExtension(name))],
            Before = TimeSpan.FromSeconds(before),
            After = TimeSpan.FromSeconds(after),
            Kinds = kinds ?? AlarmCaptureOptions.Usual,
            FeederPath = feeder,
        };
    }
}
