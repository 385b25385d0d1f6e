using System.Globalization;
using System.Text.RegularExpressions;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Outputs.Captures;

/// <summary>The folder of captures: their names, what lies beside them, and room for the next one.</summary>
internal sealed partial class CaptureFolder(AlarmCaptureOptions options)
{
    /// <summary>Gives the path of a capture that is not there yet.</summary>
    public string Path(DateTimeOffset at, AlarmId id, string place)
    {
        var stem = string.Create(CultureInfo.InvariantCulture, $"{at.UtcDateTime:yyyyMMdd'T'HHmmss'Z'}-{Names.Of(id.Kind)}{(place.Length > 0 ? "-" + place : "")}");
        var path = System.IO.Path.Combine(options.Folder, stem + ".wav");
        for (var n = 2; File.Exists(path) || File.Exists(path + OpenCapture.Partial); n++)
        {
            path = System.IO.Path.Combine(options.Folder, string.Create(CultureInfo.InvariantCulture, $"{stem}-{n}.wav"));
        }

        return path;
    }

    /// <summary>Makes the folder and gives the captures in it that were not finished.</summary>
    public IReadOnlyList<string> Unfinished()
    {
        Directory.CreateDirectory(options.Folder);
        return [.. Directory.GetFiles(options.Folder, "*.wav" + OpenCapture.Partial).Where(path => Name().IsMatch(System.IO.Path.GetFileName(path)))];
    }

    /// <summary>Removes notes and halves that belong to nothing.</summary>
    public void Tidy()
    {
        foreach (var stray in Directory.GetFiles(options.Folder).Where(path => Name().IsMatch(System.IO.Path.GetFileName(path)) && !path.EndsWith(".wav", StringComparison.Ordinal)))
        {
            File.Delete(stray);
        }
    }

    /// <summary>Makes room for a capture: the oldest that nobody wants kept go first, with what lies beside them. Gives the names of those that went.</summary>
    /// <param name="bytes">What the capture will take.</param>
    /// <exception cref="IOException">There is no room, with what to do.</exception>
    public IReadOnlyList<string> MakeRoom(long bytes)
    {
        Directory.CreateDirectory(options.Folder);
        var captures = Captures();
        var taken = captures.Sum(files => files.Sum(file => file.Length));
        var removable = new Queue<IGrouping<string, FileInfo>>(captures.Where(files => !Kept(files)));
        var removed = new List<string>();
        while (taken + bytes > options.QuotaBytes || Free() < bytes + options.ReserveBytes)
        {
            if (!removable.TryDequeue(out var oldest))
            {
                throw new IOException(Free() < bytes + options.ReserveBytes
                    ? $"the disk of {options.Folder} is full and there is no capture left that may go: free some space"
                    : $"the captures that are kept fill the quota of {options.Folder}: raise `quota_mb`, or move some elsewhere");
            }

            taken -= oldest.Sum(file => file.Length);
            foreach (var file in oldest)
            {
                file.Delete();
            }

            removed.Add(oldest.Key + ".wav");
        }

        return removed;
    }

    /// <summary>Puts the feeder file beside a capture, with the files that it names, so that it can be replayed wherever it is taken.</summary>
    public void AddFeeder(string capture)
    {
        if (options.FeederPath is not { } feeder)
        {
            return;
        }

        var (stem, from) = (System.IO.Path.ChangeExtension(capture, null), System.IO.Path.GetDirectoryName(feeder) ?? "");
        var text = Named().Replace(File.ReadAllText(feeder), found =>
        {
            var named = System.IO.Path.Combine(from, found.Groups["file"].Value);
            if (!File.Exists(named))
            {
                return found.Value;
            }

            var beside = $"{stem}.{System.IO.Path.GetFileName(named)}";
            File.Copy(named, beside, overwrite: true);
            return $"{found.Groups["key"].Value} = '{System.IO.Path.GetFileName(beside)}'";
        });
        File.WriteAllText(stem + ".feeder.toml", text);
    }

    /// <summary>Says whether a file's name is that of an alarm's waveform that is whole.</summary>
    public static bool IsAlarms(string name) => Name().IsMatch(name) && name.EndsWith(".wav", StringComparison.Ordinal);

    /// <summary>Gives what a capture takes with what lies beside it; 0 where there is none.</summary>
    public long SizeOf(string stem) => Captures().Find(files => files.Key == stem)?.Sum(file => file.Length) ?? 0;

    /// <summary>Gives what the captures take; null where the folder is not there or cannot be read.</summary>
    public CaptureRoom? Room()
    {
        try
        {
            var (all, kept, bytes, keptBytes) = (0, 0, 0L, 0L);
            foreach (var files in Captures())
            {
                var (taken, stays) = (files.Sum(file => file.Length), Kept(files));
                (all, bytes) = (all + 1, bytes + taken);
                (kept, keptBytes) = stays ? (kept + 1, keptBytes + taken) : (kept, keptBytes);
            }

            return new(all, bytes, kept, keptBytes);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private List<IGrouping<string, FileInfo>> Captures() =>
    [
        .. new DirectoryInfo(options.Folder).GetFiles().Where(file => Stem().IsMatch(file.Name))
            .GroupBy(file => Stem().Match(file.Name).Value, StringComparer.Ordinal).OrderBy(files => files.Key, StringComparer.Ordinal),
    ];

    private bool Kept(IGrouping<string, FileInfo> files) => options.Keep.Contains(files.Key)
        || files.Any(file => file.Name == files.Key + ".keep" || file.Name.Contains(OpenCapture.Partial, StringComparison.Ordinal));

    private long Free() => new DriveInfo(System.IO.Path.GetFullPath(options.Folder)).AvailableFreeSpace;

    [GeneratedRegex(@"^\d{8}T\d{6}Z-[a-z]+(?:-[a-z]+)*(?:-\d+)?")]
    private static partial Regex Stem();

    [GeneratedRegex(@"^\d{8}T\d{6}Z-[a-z]+(?:-[a-z]+)*(?:-\d+)?\.wav(?:\.part|\.part\.notes|\.whole)?$")]
    private static partial Regex Name();

    [GeneratedRegex("""\b(?<key>calibration|models)\s*=\s*(?<quote>["'])(?<file>[^"']+)\k<quote>""")]
    private static partial Regex Named();
}
