using System.Runtime.Versioning;
using System.Text.RegularExpressions;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Live;
using StrokeWatch.Page.Access;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>The daemon on a simulated feeder with a page that people can sign in to: Olga runs the feeder, Tom works on it, Erika answers for it.</summary>
[SupportedOSPlatform("linux")]
internal sealed partial class StaffedRun : IDisposable
{
    public const string Password = "four blue trays";

    private readonly Running running;
    private readonly TraySensor sensor;

    private StaffedRun(Running running, TraySensor sensor, TempFolder folder, string address) => (this.running, this.sensor, Folder, Address) = (running, sensor, folder, address);

    public TempFolder Folder { get; }

    public string Address { get; }

    public string Said => running.Out + running.Error;

    /// <summary>Gets the sensor, whose plug may be pulled.</summary>
    public TraySensor Sensor => sensor;

    /// <summary>Starts it on a feeder, and waits until the page is served.</summary>
    /// <param name="tray">The feeder.</param>
    /// <param name="feeder">The feeder's file.</param>
    /// <param name="more">More lines of the daemon's configuration.</param>
    public static async Task<StaffedRun> Start(ISampleSource tray, string feeder = DemoFeeder.Toml, string more = "")
    {
        var folder = new TempFolder();
        folder.Write("cullet.toml", feeder);
        new UsersFile(
            [
                new("Olga", PageRole.Operator, PasswordHash.Make(Password, 100_000)), new("Tom", PageRole.Technician, PasswordHash.Make(Password, 100_000)),
                new("Erika", PageRole.Engineer, PasswordHash.Make(Password, 100_000)),
            ], []).Write(folder.At("page-users.toml"));
        folder.Write(
            "watch.toml",
            $"feeder = \"cullet.toml\"\n[sensor]\nport = \"{folder.At("tray-sensor")}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n[page]\nlisten = \"127.0.0.1:0\"\nusers = \"page-users.toml\"\n{more}");
        var sensor = new TraySensor(folder.At("tray-sensor"));
        sensor.PlugFrames(tray);
        var running = Running.Start(folder.Path, "watch", "--config", "watch.toml");
        var said = await running.Until(() => Told().Match(running.Out) is { Success: true } match ? match : null, "address of the page");
        return new(running, sensor, folder, said.Groups[1].Value);
    }

    public void Dispose()
    {
        running.Dispose();
        sensor.Dispose();
        Folder.Dispose();
    }

    [GeneratedRegex(@"Page: (http://127\.0\.0\.1:\d+/)\s")]
    private static partial Regex Told();
}
