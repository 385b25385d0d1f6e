using System.Collections;

namespace StrokeWatch.Configuration.Toml;

/// <summary>The errors of one file, gathered while it is read and given in the order of its lines.</summary>
internal sealed class ConfigurationErrors(string file) : IReadOnlyCollection<ConfigurationError>
{
    private readonly List<ConfigurationError> found = [];

    /// <summary>Gets the file as the user named it.</summary>
    public string File { get; } = file;

    /// <inheritdoc/>
    public int Count => found.Count;

    /// <summary>Adds an error at a line (from 1; 0 for the whole file).</summary>
    public void Add(int line, string message) => found.Add(new(File, line, message));

    /// <inheritdoc/>
    public IEnumerator<ConfigurationError> GetEnumerator() => found.OrderBy(e => e.Line).GetEnumerator();

    /// <inheritdoc/>
    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
