using System.Security.Cryptography;
using StrokeWatch.Configuration;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Commands;

/// <summary>Says why several captures make no history, or an untrustworthy one, in one line that names the captures and what to do.</summary>
internal static class HistoryCheck
{
    /// <summary>Before this no such sensor was at hand: a clock that was never set says 1970 or 1980.</summary>
    private static readonly DateTimeOffset Earliest = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>Looks at the files before they are read; null where nothing is wrong.</summary>
    /// <param name="files">The captures.</param>
    /// <param name="feederFile">The feeder file they are read by.</param>
    /// <param name="feeder">That feeder's name.</param>
    public static string? OfFiles(IReadOnlyList<string> files, string feederFile, string feeder)
    {
        for (var i = 1; i < files.Count; i++)
        {
            if (files.Take(i).Any(other => Real(other) == Real(files[i])))
            {
                return $"{files[i]}: is named twice, and would count twice in the history; name each capture once";
            }
        }

        foreach (var file in files.Count > 1 && IsNamed(feeder, feederFile) ? files : [])
        {
            var beside = Path.ChangeExtension(file, null) + ".feeder.toml";
            if (File.Exists(beside) && FeederFile.Read(beside).Value is { } own && IsNamed(own.Name, beside) && !own.Name.Equals(feeder, StringComparison.OrdinalIgnoreCase))
            {
                return $"{file}: is of {own.Name} by {Path.GetFileName(beside)} beside it, and {feederFile} is of {feeder}; replay the captures of one feeder at a time";
            }
        }

        return null;
    }

    /// <summary>Looks at the captures once they are read; null where nothing is wrong.</summary>
    public static string? OfResults(IReadOnlyList<ReplayResult> results)
    {
        var dated = results.Where(result => result.Date is { Assumed: false }).OrderBy(result => result.Date!.Value.Recorded).ToList();
        if (results.Count > 1 && dated.FirstOrDefault(result => result.Date!.Value.Recorded < Earliest) is { } old)
        {
            return $"{old.File}: says it was recorded on {RecordedDate.Text(old.Date!.Value.Recorded)[..10]}, as a clock does that was never set, and would pass for the healthy machine; put its true date into its name (2026-03-01T0800) or leave it out";
        }

        for (var i = 1; i < dated.Count; i++)
        {
            foreach (var earlier in dated.Take(i))
            {
                if (!Overlap(earlier, dated[i]))
                {
                    continue;
                }

                if (Same(earlier.File, dated[i].File))
                {
                    return $"{dated[i].File}: holds the same as {earlier.File}, and would count twice in the history; leave one of them out";
                }

                if (!DayOnly(earlier) && !DayOnly(dated[i]))
                {
                    return FormattableString.Invariant(
                        $"{dated[i].File}: begins at {RecordedDate.Text(dated[i].Date!.Value.Recorded)}, while {earlier.File}, {earlier.DurationSeconds:0.#} s from {RecordedDate.Text(earlier.Date!.Value.Recorded)}, still runs; correct the date or leave one of them out");
                }
            }
        }

        return null;
    }

    /// <summary>Says what makes the history less than it could be, a line each.</summary>
    public static IEnumerable<string> Notes(IReadOnlyList<ReplayResult> results)
    {
        if (results.Count < 2)
        {
            yield break;
        }

        if (results.FirstOrDefault(result => result.Date is null) is { } undated)
        {
            yield return $"{undated.File}: has no date, so that these captures are told one by one and not as a history; put it into its name (2026-03-01T0800) or into its first line (# recorded: 2026-03-01T08:00:00Z)";
            yield break;
        }

        var ordered = results.OrderBy(result => result.Date!.Value.Recorded).ThenBy(result => result.File, StringComparer.Ordinal).ToList();
        for (var i = 1; i < ordered.Count; i++)
        {
            if (Overlap(ordered[i - 1], ordered[i]))
            {
                var why = ordered[i].Date!.Value.Assumed || ordered[i - 1].Date!.Value.Assumed ? "by their files' own times, which copying changes," : "for only their day is known,";
                yield return $"{ordered[i - 1].File}, {ordered[i].File}: which came first cannot be told {why} and they are taken in order of name; put date and time into their names (2026-03-01T0800)";
                yield break;
            }
        }
    }

    /// <summary>Says whether a feeder has a name of its own, not only that of its file.</summary>
    private static bool IsNamed(string name, string file) => name != Path.GetFileName(file).Split('.')[0];

    private static bool Overlap(ReplayResult earlier, ReplayResult later) =>
        later.Date!.Value.Recorded - earlier.Date!.Value.Recorded < TimeSpan.FromSeconds(Math.Max(0.5, earlier.DurationSeconds - 1));

    /// <summary>Says whether a date is a day alone, as names often give it.</summary>
    private static bool DayOnly(ReplayResult result) => result.Date is { From: "file-name", Recorded: { } at } && at.UtcDateTime.TimeOfDay == TimeSpan.Zero;

    private static bool Same(string one, string other)
    {
        try
        {
            if (new FileInfo(one).Length != new FileInfo(other).Length)
            {
                return false;
            }

            using FileStream first = File.OpenRead(one), second = File.OpenRead(other);
            return SHA256.HashData(first).AsSpan().SequenceEqual(SHA256.HashData(second));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static string Real(string file)
    {
        try
        {
            return Path.GetFullPath(File.ResolveLinkTarget(file, returnFinalTarget: true)?.FullName ?? file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Path.GetFullPath(file);
        }
    }
}
