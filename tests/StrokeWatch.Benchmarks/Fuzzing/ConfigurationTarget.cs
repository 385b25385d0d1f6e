using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>A configuration file of this folder's own that is read again and again; what is wrong with it must be said in single lines.</summary>
internal abstract class ConfigurationTarget : IFuzzTarget
{
    public abstract IReadOnlyList<byte[]> Corpus { get; }

    public IReadOnlyList<string> Words { get; } =
    [
        "[", "]", "[[", "]]", "=", "\"", "'''", "\"\"\"", "\\u0000", "\\", "#", "\n", "nan", "inf", "-1", "1e999", "true", "1979-05-27", "[sensor]", "[[sensors]]", "[drive]", "[stroke]", "{", "}", ",", ".", "0x", "9223372036854775808", "\"1.5 mm\"", "\"0\"", "a.b.c",
        "model = \"", "kind = \"adxl357\"", "place = \"front\"", "[page]", "listen", "[mqtt]", "[influx]", "[relay]", "[webhook]", "[[springs]]", "\ufeff", "\t", "é", "\0",
    ];

    public int Longest => 12_000;

    protected string Folder { get; } = Directory.CreateTempSubdirectory("strokewatch-fuzz").FullName;

    public bool Take(byte[] input, Random random)
    {
        var path = Path.Combine(Folder, "taken.toml");
        File.WriteAllBytes(path, input);
        var (good, errors) = Read(path);
        if (good == errors.Count > 0 || errors.Any(error => error.ToString() is not { Length: > 0 } line || line.Contains('\n', StringComparison.Ordinal)))
        {
            throw new InvalidOperationException($"read: {good}; errors: {string.Join(" / ", errors)}");
        }

        return good;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    protected abstract (bool Good, IReadOnlyList<ConfigurationError> Errors) Read(string path);
}
