namespace StrokeWatch.Commands;

/// <summary>What a command needs of the world: its streams, its clock and the wish to stop.</summary>
internal sealed record Surroundings
{
    /// <summary>Gets where results go.</summary>
    public required TextWriter Output { get; init; }

    /// <summary>Gets where everything else goes.</summary>
    public required TextWriter Error { get; init; }

    /// <summary>Gets the raw stream of results, for JSON.</summary>
    public required Stream RawOutput { get; init; }

    /// <summary>Gets where lines are read from.</summary>
    public TextReader Input { get; init; } = TextReader.Null;

    /// <summary>Gets what waits for a key and gives its character; null where the input is no terminal.</summary>
    public Func<char>? ReadKey { get; init; }

    /// <summary>Gets whether the results go to a terminal that a person looks at.</summary>
    public bool Terminal { get; init; }

    /// <summary>Gets the clock.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>Gets the wish to stop (a signal).</summary>
    public CancellationToken Stop { get; init; }
}
