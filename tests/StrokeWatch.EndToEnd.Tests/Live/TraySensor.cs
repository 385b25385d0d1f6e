using System.Runtime.Versioning;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>A sensor on a simulated cullet feeder, at the end of a real cable: a pseudo-terminal under a path that stays the same, as udev gives one.</summary>
[SupportedOSPlatform("linux")]
internal sealed class TraySensor(string path) : IDisposable
{
    public const double StrokeMillimetres = 1.715;
    public const double RateHz = 4000;

    private PseudoTerminal? cable;
    private IDisposable? sender;

    /// <summary>Makes the feeder; it takes a moment, so that it is made before the plug goes in.</summary>
    public static ISampleSource Feeder(double rateHz = RateHz, double clockPpm = 1500, params SimulatedPlace[] places) => new SimulatedFeederSource(new FeederScenario
    {
        Name = "A healthy cullet feeder",
        Feeder = DemoScenario.Feeder,
        DurationSeconds = double.PositiveInfinity,
        Stroke = Length.FromMillimetres(StrokeMillimetres),
        Sensor = new() { RateHz = rateHz, NoiseG = 0.03, RateErrorPpm = clockPpm },
        Sensors = places,
    });

    /// <summary>Plugs in a sensor that speaks the framed protocol.</summary>
    public void PlugFrames(ISampleSource tray, ushort startNumber = 1)
    {
        Connect();
        var sensor = new SimulatedSensor(
            tray, cable!, new() { RateHz = RateHz, FullScale = 32 * Gravity.Standard, StartNumber = startNumber }, TimeProvider.System);
        sensor.Start();
        sender = sensor;
    }

    /// <summary>Plugs in a microcontroller that prints lines.</summary>
    public void PlugLines(ISampleSource tray)
    {
        Connect();
        sender = new LinePrinter(tray, cable!);
    }

    /// <summary>Pulls the plug.</summary>
    public void Unplug()
    {
        sender?.Dispose();
        cable?.Dispose();
        (sender, cable) = (null, null);
        File.Delete(path);
    }

    public void Dispose() => Unplug();

    private void Connect()
    {
        cable = PseudoTerminal.Create();
        File.CreateSymbolicLink(path, cable.SlavePath);
    }
}
