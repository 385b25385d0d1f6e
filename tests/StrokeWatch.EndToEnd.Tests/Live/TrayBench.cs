using System.Runtime.Versioning;
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

    public void Dispose()
    {
        Sensor.Dispose();
        Folder.Dispose();
    }
}
