using System.Globalization;
using System.Text.RegularExpressions;

namespace StrokeWatch.Outputs.Captures;

/// <summary>Room for the captures that tuning sessions leave, NAME.trial-INSTANT.wav: a quota of their own, in which the oldest measurement goes first and none that is in use or kept.</summary>
/// <remarks>The waveforms of alarms have theirs: neither takes room from the other. What several sensors gave of one measurement, and what lies beside it, goes together.</remarks>
/// <param name="folder">The folder; it is made where it is not there.</param>
/// <param name="quotaBytes">The most bytes that they may take together.</param>
/// <param name="name">The NAME of those that may be removed; null for all.</param>
public sealed partial class TrialRoom(string folder, long quotaBytes, string? name = null)
{
    /// <summary>The usual quota in bytes: some forty measurements of 20 s with three axes at 4 kHz.</summary>
    public const long UsualBytes = 50_000_000;

    /// <summary>Gets the bytes of the disk that are left to others.</summary>
    public long ReserveBytes { get; init; } = 16_000_000;

    /// <summary>Gets what says how many bytes are free on the disk.</summary>
    internal Func<long> Free { get; init; } = () => new DriveInfo(Path.GetFullPath(folder)).AvailableFreeSpace;

    /// <summary>Gets the most bytes that they may take together.</summary>
    public long QuotaBytes => quotaBytes;

    /// <summary>Gets what those take that are kept.</summary>
    public long KeptBytes => Trials().Where(Kept).Sum(Size);

    /// <summary>Says whether a file's name is that of such a capture.</summary>
    public static bool IsTrial(string file) => Name().IsMatch(file) && file.EndsWith(".wav", StringComparison.Ordinal);

    /// <summary>Gives what a measurement takes, by the name of one of its captures; 0 where there is none.</summary>
    public long SizeOf(string file) => Trials().Find(trial => trial.Key == Stem(file)) is { } found ? Size(found) : 0;

    /// <summary>Makes room for a measurement; gives the names of the captures that went.</summary>
    /// <param name="bytes">What it will take.</param>
    /// <param name="used">The names of captures that are in use.</param>
    /// <exception cref="IOException">There is no room, with what to do.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder cannot be written.</exception>
    public IReadOnlyList<string> Make(long bytes, IEnumerable<string> used)
    {
        Directory.CreateDirectory(folder);
        var trials = Trials();
        var taken = trials.Sum(Size);
        var stay = used.Select(Stem).ToHashSet(StringComparer.Ordinal);
        var removable = new Queue<IGrouping<string, FileInfo>>(trials.Where(trial => !stay.Contains(trial.Key) && !Kept(trial)));
        var removed = new List<string>();
        var mayGo = removable.Sum(Size);

        // Nothing goes for what finds no room all the same.
        if (taken - mayGo + bytes > quotaBytes)
        {
            throw new IOException(string.Create(CultureInfo.InvariantCulture, $"the captures of trials that are in use or kept fill their {quotaBytes / 1_000_000} MB in {folder}: raise `trials_mb`, or let some go"));
        }

        if (Free() + mayGo < bytes + ReserveBytes)
        {
            throw new IOException($"the disk of {folder} is full, and captures of trials that may go are too small to help: free some space");
        }

        while ((taken + bytes > quotaBytes || Free() < bytes + ReserveBytes) && removable.TryDequeue(out var oldest))
        {
            taken -= Size(oldest);
            foreach (var file in oldest)
            {
                file.Delete();
                if (IsTrial(file.Name))
                {
                    removed.Add(file.Name);
                }
            }
        }

        return removed;
    }

    private static long Size(IEnumerable<FileInfo> files) => files.Sum(file => file.Length);

    private static bool Kept(IEnumerable<FileInfo> files) => files.Any(file => file.Extension == ".keep");

    private static string Stem(string file) => Name().Match(file) is { Success: true } match ? match.Groups["stem"].Value : file;

    private List<IGrouping<string, FileInfo>> Trials() => !Directory.Exists(folder) ? [] :
    [
        .. new DirectoryInfo(folder).GetFiles("*.trial-*").Where(file => Name().Match(file.Name) is { Success: true } match && (name is null || match.Groups["name"].Value == name))
            .GroupBy(file => Stem(file.Name), StringComparer.Ordinal).OrderBy(trial => Name().Match(trial.First().Name).Groups["at"].Value, StringComparer.Ordinal),
    ];

    [GeneratedRegex(@"^(?<stem>(?<name>.+)\.trial-(?<at>\d{8}T\d{6}Z))(?:-[a-z]+)*\.(?:keep|wav(?:\.part|\.part\.notes|\.whole)?)$")]
    private static partial Regex Name();
}
