using System.Text;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Configuration;

/// <summary>The file <c>NAME.baseline.json</c> beside a feeder file <c>NAME.toml</c>: every baseline the feeder ever had.</summary>
internal static class BaselineFile
{
    private const int MostBytes = 1 << 24;
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Gives the file's place, beside the feeder file.</summary>
    public static string Beside(string feederFile) => Path.ChangeExtension(feederFile, ".baseline.json");

    /// <summary>Reads all baselines, none where there is no file; null where it cannot be read, and the errors then say why.</summary>
    public static BaselineHistory? Read(string path, ConfigurationErrors errors)
    {
        if (!File.Exists(path) && !Directory.Exists(path))
        {
            return BaselineHistory.Empty;
        }

        try
        {
            if (new FileInfo(path).Length is > MostBytes and var size)
            {
                errors.Add(0, $"has {size} bytes; a file of baselines has at most {MostBytes}");
                return null;
            }

            var history = BaselineJson.Read(Strict.GetString(File.ReadAllBytes(path)), out var line, out var fault);
            if (history is null)
            {
                errors.Add(line, fault);
            }

            return history;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or DecoderFallbackException)
        {
            errors.Add(0, $"cannot be read: {trouble.Message}");
            return null;
        }
    }

    /// <summary>Adds an earlier version again, so that it is the one in force; those in the file stay as they are.</summary>
    /// <returns>The version as it was numbered; null where there is none of that number or nothing was written, and the errors then say why.</returns>
    public static Baseline? Take(string path, int version, DateTimeOffset made, string? note, ConfigurationErrors errors)
    {
        if (Read(path, errors) is not { } history)
        {
            return null;
        }

        if (history.Again(version, made, note) is not { } again)
        {
            errors.Add(0, history.Versions.Count == 0 ? "holds no baseline yet" : $"holds no version {version}; versions 1 to {history.Versions.Count} are in it");
            return null;
        }

        return Add(path, again, errors);
    }

    /// <summary>Adds a version to the file; those in it stay as they are, and at any moment the file is whole: the old one or the new.</summary>
    /// <returns>The version as it was numbered; null where it was not written, and the errors then say why.</returns>
    public static Baseline? Add(string path, Baseline baseline, ConfigurationErrors errors)
    {
        var draft = path + ".new";
        try
        {
            // The draft, open for nobody else, also keeps two programs from adding at once.
            using var stream = new FileStream(draft, FileMode.OpenOrCreate, FileAccess.Write, FileShare.None);
            var history = Read(path, errors);
            if (history is null)
            {
                File.Delete(draft);
                return null;
            }

            var next = history.Add(baseline);
            var bytes = Strict.GetBytes(BaselineJson.Write(next));
            if (bytes.Length > MostBytes)
            {
                // Written all the same it could never be read again.
                errors.Add(0, $"is full: with another version it would have {bytes.Length} bytes, and at most {MostBytes} are read; move it away and keep it, and a new file is begun");
                File.Delete(draft);
                return null;
            }

            stream.SetLength(0);
            stream.Write(bytes);
            stream.Flush(flushToDisk: true);
            File.Move(draft, path, overwrite: true);
            return next.Current;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            errors.Add(0, $"cannot be written: {trouble.Message}");
            return null;
        }
    }
}
