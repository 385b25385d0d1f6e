using Xunit;

namespace StrokeWatch.Tests;

/// <summary>Tests that count what a thread allocates: a collection that another test causes in the meantime would be counted with it, so they run after all others, one by one.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class Undisturbed
{
    public const string Name = "Undisturbed";
}
