using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>
/// Tests that keep real time run after all others and one at a time. The demonstration takes a minute and a half, so that it is started first and runs
/// beside the others, which hardly use the processor. Tests of the live daemon that only wait for what it says, however late, are not among them: they run two at a time.
/// </summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class RealTime : ICollectionFixture<DemoRun>
{
    public const string Name = "real time";
}
