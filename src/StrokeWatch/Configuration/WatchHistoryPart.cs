using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Configuration;

/// <summary>The table [history] of the daemon's configuration; all of it is optional.</summary>
internal static class WatchHistoryPart
{
    /// <summary>Reads the table.</summary>
    /// <param name="root">The configuration.</param>
    /// <param name="path">Its path, from whose folder paths in it count.</param>
    /// <param name="feederPath">The feeder file, beside which the file of baselines lies where the table does not say.</param>
    public static WatchHistory Read(TableReader root, string path, string feederPath)
    {
        var normal = new WatchHistory { BaselinePath = BaselineFile.Beside(feederPath) };
        if (root.Table("history") is not { } table)
        {
            return normal;
        }

        var (stretches, learning) = (normal.Stretches, normal.Learning!);
        var learn = table.Flag("learn") ?? true;
        var most = table.Number("learn_most_days", 0, 365, "days") ?? learning.Longest.TotalDays;
        var least = table.Number("learn_days", 0, 365, "days") ?? Math.Min(most, learning.Shortest.TotalDays);
        var since = Since(table);
        var file = table.Text("baseline", "the path of a file of baselines, in quotes,");
        if (least > most)
        {
            table.Refuse("learn_days", "`learn_days` is larger than `learn_most_days`; at most as many days were expected");
        }

        var read = normal with
        {
            Stretches = stretches with
            {
                LongestSeconds = 60 * (table.Number("stretch_minutes", 1, 720, "minutes") ?? stretches.LongestSeconds / 60),
                LeastSeconds = table.Number("least_seconds", 1, 600, "s") ?? stretches.LeastSeconds,
            },
            BaselinePath = file is null ? normal.BaselinePath : FeederFile.Beside(path, file),
            LearnSince = since,
            Learning = learning with
            {
                Enough = table.Integer("learn_stretches", 8, 512) ?? learning.Enough,
                Shortest = TimeSpan.FromDays(least),
                Longest = TimeSpan.FromDays(Math.Max(least, most)),
            },
        };
        table.Finish();
        return learn ? read : read with { Learning = null };
    }

    private static DateTimeOffset? Since(TableReader table)
    {
        const string Expected = "a date in quotes such as \"2026-03-04\" or \"2026-03-04T08:00:00Z\"";
        if (table.Text("learn_since", Expected + ",") is not { } text)
        {
            return null;
        }

        var since = RecordedDate.Parse(text);
        if (since is null)
        {
            table.Refuse("learn_since", $"`learn_since` is \"{text}\"; {Expected} was expected");
        }

        return since;
    }
}
