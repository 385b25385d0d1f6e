using StrokeWatch.EndToEnd.Tests.Commands;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The whole demonstration, run once.</summary>
public sealed class DemoRun : IDisposable
{
    private readonly TempFolder folder = new();
    private readonly Running running;

    public DemoRun() => running = Running.Start(folder.Path, "watch", "--demo", "--demo-folder", "demo");

    /// <summary>Gets the folder that the demonstration was started in.</summary>
    internal string Start => folder.Path;

    /// <summary>Waits for its end.</summary>
    internal Task<Outcome> End() => running.End(TimeSpan.FromSeconds(150));

    public void Dispose()
    {
        running.Dispose();
        folder.Dispose();
    }
}
