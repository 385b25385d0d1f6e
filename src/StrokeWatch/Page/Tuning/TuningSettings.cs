using System.Globalization;
using StrokeWatch.Machine.Feeder;

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

    /// <summary>Gives the path, without its end, of a capture begun at an instant; null where no book is kept.</summary>
    public string? CaptureStem(DateTimeOffset at) => Book is null ? null : Path.Combine(
        Captures ?? Path.GetDirectoryName(Path.GetFullPath(Book))!, string.Create(CultureInfo.InvariantCulture, $"{Path.GetFileName(Book).Split('.')[0]}.trial-{at.UtcDateTime:yyyyMMdd'T'HHmmss'Z'}"));

    /// <summary>Gets why the feeder cannot be tuned here; null where it can.</summary>
    public string? Impossible =>
        Book is null ? "no machine book is kept, and every answer must be in it"
        : Feeder.Springs is null || Feeder.Masses is null ? $"the feeder file has no {(Feeder.Springs is null ? "[springs]" : "[masses]")}, and without it nothing can be advised"
        : null;
}
