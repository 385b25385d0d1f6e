using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Outputs.Captures;

namespace StrokeWatch.Page.Tuning;

/// <summary>What the tuning session on the page needs to know of the daemon.</summary>
/// <param name="Feeder">The feeder.</param>
/// <param name="Book">The machine book; null where none is kept.</param>
/// <param name="BookRenames">Whether the book lies beside the feeder file, so that a feeder of another name is the same one, renamed.</param>
/// <param name="Baseline">The file of baselines; null where none is kept.</param>
internal sealed record TuningSettings(FeederDescription Feeder, string? Book, bool BookRenames, string? Baseline)
{
    /// <summary>Gets how long a measurement takes where nobody says, in seconds.</summary>
    public double Seconds { get; init; } = 20;

    /// <summary>Gets the folder that captures of measurements are left in; null for that of the book.</summary>
    public string? Captures { get; init; }

    /// <summary>Gets the most bytes that those captures may take together.</summary>
    public long CaptureBytes { get; init; } = TrialRoom.UsualBytes;

    private string Folder => Captures ?? Path.GetDirectoryName(Path.GetFullPath(Book!))!;

    private string Name => Path.GetFileName(Book!).Split('.')[0];

    /// <summary>Makes room for a capture of so many bytes; gives the names of those that went. What the newest session measured, open or signed, is in use.</summary>
    /// <exception cref="BookException">The book cannot be read.</exception>
    /// <exception cref="IOException">There is no room, with what to do.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder cannot be written.</exception>
    public IReadOnlyList<string> MakeRoom(long bytes)
    {
        using var book = MachineBook.OpenReader(Book!);
        var used = book.Sessions.All() is [.., var newest] ? book.Sessions.Trials(newest.Id).Select(trial => trial.Capture).OfType<string>().Select(file => Path.GetFileName(file)) : [];
        return new TrialRoom(Folder, CaptureBytes, Name).Make(bytes, used);
    }

    /// <summary>Gives the path, without its end, of a capture begun at an instant; null where no book is kept.</summary>
    public string? CaptureStem(DateTimeOffset at) => Book is null ? null : Path.Combine(
        Folder, string.Create(CultureInfo.InvariantCulture, $"{Name}.trial-{at.UtcDateTime:yyyyMMdd'T'HHmmss'Z'}"));

    /// <summary>Gets why the feeder cannot be tuned here; null where it can.</summary>
    public string? Impossible =>
        Book is null ? "no machine book is kept, and every answer must be in it"
        : Feeder.Springs is null || Feeder.Masses is null ? $"the feeder file has no {(Feeder.Springs is null ? "[springs]" : "[masses]")}, and without it nothing can be advised"
        : null;
}
