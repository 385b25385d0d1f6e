using System.Collections;

namespace StrokeWatch.Replays.Tests;

/// <summary>Every case, as the rows of a theory.</summary>
public sealed class CaseNames : IEnumerable<object[]>
{
    /// <inheritdoc/>
    public IEnumerator<object[]> GetEnumerator() => Cases.Names.Select(name => new object[] { name }).GetEnumerator();

    /// <inheritdoc/>
    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
