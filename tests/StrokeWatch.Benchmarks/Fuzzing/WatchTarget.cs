using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>The daemon's configuration, a sound feeder file beside it.</summary>
internal sealed class WatchTarget : ConfigurationTarget
{
    public WatchTarget() => File.Copy(Path.Combine(FuzzFiles.Root, "systemd", "cullet.feeder.toml"), Path.Combine(Folder, "cullet.feeder.toml"));

    public override IReadOnlyList<byte[]> Corpus { get; } = [.. FuzzFiles.Of("systemd", "strokewatch.toml", 12_000), .. Uncommented()];

    protected override (bool Good, IReadOnlyList<ConfigurationError> Errors) Read(string path)
    {
        var read = WatchFile.Read(path);
        return (read.Value is not null, read.Errors);
    }

    /// <summary>Gives each table of the example that stands there as a comment, taken in, or its readers would hardly be reached.</summary>
    private static IEnumerable<byte[]> Uncommented()
    {
        var lines = File.ReadAllLines(Path.Combine(FuzzFiles.Root, "systemd", "strokewatch.toml"));
        var head = string.Join('\n', lines.TakeWhile(line => !line.StartsWith("[history]", StringComparison.Ordinal)).Where(line => !line.StartsWith('#')));
        for (var i = 0; i < lines.Length; i++)
        {
            if (lines[i].StartsWith("# [", StringComparison.Ordinal) && !lines[i].StartsWith("# [sensor]", StringComparison.Ordinal) && !lines[i].StartsWith("# [[", StringComparison.Ordinal))
            {
                var part = lines[i..].TakeWhile((line, n) => line.StartsWith("# ", StringComparison.Ordinal) && (n == 0 || !line.StartsWith("# [", StringComparison.Ordinal))).Select(line => line[2..]);
                yield return System.Text.Encoding.UTF8.GetBytes($"{head}\n{string.Join('\n', part)}\n");
            }
        }
    }
}
