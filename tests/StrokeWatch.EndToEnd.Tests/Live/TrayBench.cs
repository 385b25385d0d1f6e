using System.Runtime.Versioning;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>A folder of a test's own with a tray's sensor that can be plugged in as <c>tray-sensor</c>; a test without pseudo-terminals reports itself as not run.</summary>
[SupportedOSPlatform("linux")]
internal sealed class TrayBench : IDisposable
{
    public TrayBench()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        Sensor = new(Folder.At("tray-sensor"));
    }

    public TempFolder Folder { get; } = new();

    public TraySensor Sensor { get; }

    /// <summary>Writes the demonstration's feeder file and a daemon's configuration with this sensor and a store.</summary>
    /// <param name="more">The tables beside.</param>
    /// <param name="feeder">The feeder file.</param>
    /// <param name="speech">How the sensor speaks.</param>
    /// <returns>The configuration's path.</returns>
    public string Configure(string more = "", string feeder = DemoFeeder.Toml, string speech = "protocol = \"frames\"")
    {
        Folder.Write("cullet.feeder.toml", feeder);
        return Folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{Folder.At("tray-sensor")}\"\n{speech}\n[store]\npath = \"store.db\"\n{more}\n");
    }

    public void Dispose()
    {
        Sensor.Dispose();
        Folder.Dispose();
    }
}
