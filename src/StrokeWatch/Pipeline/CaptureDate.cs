using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>When a capture was recorded, and how that is known.</summary>
/// <param name="Recorded">The instant of its first sample.</param>
/// <param name="From">In what it is written: <c>file</c>, <c>file-name</c> or <c>file-time</c>.</param>
internal readonly record struct CaptureDate(DateTimeOffset Recorded, string From)
{
    private const string FileTime = "file-time";

    /// <summary>Gets whether the date is only the file's own time, which copying may have changed.</summary>
    public bool Assumed => From == FileTime;

    /// <summary>Finds the date of a capture: what it says itself, else a stamp in its name, else the file's time; null where it is no file (a pipe).</summary>
    public static CaptureDate? Of(string path, SourceInfo source)
    {
        if (source.Recorded is { } said)
        {
            return new(said, "file");
        }

        if (RecordedDate.OfName(path) is { } named)
        {
            return new(named, "file-name");
        }

        try
        {
            // A pipe's name is a link to nothing that has a time.
            FileSystemInfo link = new FileInfo(path);
            var file = link.LinkTarget is null ? (FileInfo)link : link.ResolveLinkTarget(returnFinalTarget: true) as FileInfo;
            return file is { Exists: true, Length: > 0 } ? new(file.LastWriteTimeUtc, FileTime) : null;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return null;
        }
    }
}
