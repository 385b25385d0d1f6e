using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>The feeder file.</summary>
internal sealed class FeederTarget : ConfigurationTarget
{
    public override IReadOnlyList<byte[]> Corpus { get; } = [.. FuzzFiles.Of("sim-data", ".feeder.toml", 8000), .. FuzzFiles.Of("systemd", ".feeder.toml", 8000)];

    protected override (bool Good, IReadOnlyList<ConfigurationError> Errors) Read(string path)
    {
        var read = FeederFile.Read(path);
        return (read.Value is not null, read.Errors);
    }
}
