using System.Runtime.Versioning;
using StrokeWatch.Configuration;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Tests.Outputs.Relay;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The daemon's relay over its life, with a sensor at a real cable and a line that writes down what is done to it.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class RelayTests : IDisposable
{
    private readonly TrayBench bench = new();

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task It_pulls_once_something_is_measured_drops_with_the_sensor_and_ends_de_energised()
    {
        var read = WatchFile.Read(bench.Configure("""
            [alarms]
            lost_after_s = 1
            [relay]
            line = 17
            active_low = true
            """)).Value!;
        var driver = new RecordingDriver(TimeProvider.System);
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        using var stop = new CancellationTokenSource();
        var run = new WatchRun
        {
            Feeder = read.Feeder,
            Store = read.Store,
            Delays = read.Alarms,
            Terminal = false,
            LogLevel = LogLevelName.Error,
            Output = new StringWriter(),
            Relay = read.Relay,
            RelayLine = () => new GpioLine(read.Relay!, driver),
            Time = TimeProvider.System,
        };
        var running = Task.Run(() => run.Run(
            [.. read.Ports.Select(port => (Func<Action<SensorEvent>, LiveSensorSource>)(tell => SensorOpening.Open(port, TimeProvider.System, tell)))], stop.Token));
        await Until(() => driver.Levels is [.., false]);
        Assert.Equal([true, false], driver.Levels);
        Assert.Equal("mode with value", driver.Log.First(entry => entry.High is not null).What);

        var pulled = TimeProvider.System.GetUtcNow();
        bench.Sensor.Unplug();
        await Until(() => driver.Levels.Count == 3);
        Assert.InRange((driver.Log[^1].At - pulled).TotalSeconds, 0.9, 2.5);
        bench.Sensor.PlugFrames(TraySensor.Feeder(), startNumber: 2);
        await Until(() => driver.Levels.Count == 4);
        await stop.CancelAsync();
        await running.WaitAsync(TimeSpan.FromSeconds(20));
        Assert.Equal([true, false, true, false, true], driver.Levels);
        Assert.Equal("close", driver.Log[^1].What);
    }

    private static async Task Until(Func<bool> asked)
    {
        for (var i = 0; i < 600 && !asked(); i++)
        {
            await Task.Delay(50);
        }

        Assert.True(asked());
    }
}
