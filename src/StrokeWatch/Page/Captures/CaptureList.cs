using Microsoft.Data.Sqlite;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Page.Captures;

/// <summary>The captures of one folder. A name is only ever looked up in the folder's own listing, so that none leads out of it; links are left out.</summary>
/// <param name="folder">The folder; null where there is none.</param>
/// <param name="store">The store that knows of which alarm a capture is.</param>
/// <param name="pins">What keeps captures from being removed; null where none ever is.</param>
internal sealed class CaptureList(string? folder, string store, CapturePins? pins = null)
{
    /// <summary>How many are listed, the newest first.</summary>
    public const int Most = 500;

    private static readonly string[] Ends = [".wav", ".csv", ".tsv"];

    /// <summary>Gets what keeps captures from being removed; null where none ever is.</summary>
    public CapturePins? Pins => pins;

    /// <summary>Gets whether there is a folder at all.</summary>
    public bool Kept => folder is not null;

    /// <summary>Gives the captures, the newest first.</summary>
    /// <exception cref="IOException">The folder cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">Nor may it be.</exception>
    public IReadOnlyList<ListedCapture> All()
    {
        var alarms = Alarms();
        return [.. Files().OrderByDescending(file => file.LastWriteTimeUtc).ThenBy(file => file.Name, StringComparer.Ordinal).Take(Most + 1)
            .Select(file => Listed(file, alarms))];
    }

    /// <summary>Gives a capture as the list has it.</summary>
    /// <exception cref="IOException">What lies beside it cannot be read.</exception>
    public ListedCapture Listed(FileInfo file) => Listed(file, Alarms());

    /// <summary>Finds a capture by its whole name; null where the folder holds none of that name.</summary>
    public FileInfo? Find(string name) => Files().FirstOrDefault(file => file.Name.Equals(name, StringComparison.Ordinal));

    private ListedCapture Listed(FileInfo file, Dictionary<string, List<AlarmWaveform>> alarms) =>
        new(file, alarms.TryGetValue(file.Name, out var waveforms) ? waveforms : [], pins?.Of(file.Name) ?? CaptureKeep.Always, pins?.Words(file.Name));

    private IEnumerable<FileInfo> Files() => folder is null || !Directory.Exists(folder) ? [] : new DirectoryInfo(folder)
        .EnumerateFiles("*", new EnumerationOptions { AttributesToSkip = FileAttributes.Hidden | FileAttributes.ReparsePoint | FileAttributes.Device, IgnoreInaccessible = true })
        .Where(file => Ends.Contains(file.Extension.ToLowerInvariant()) && file.LinkTarget is null);

    private Dictionary<string, List<AlarmWaveform>> Alarms()
    {
        try
        {
            using var reader = new StoreReader(store);
            return reader.Captures(DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue).GroupBy(one => one.File).ToDictionary(group => group.Key, group => group.ToList());
        }
        catch (SqliteException)
        {
            // Without the store the captures are there all the same; only of which alarm each is cannot be told.
            return [];
        }
    }
}
