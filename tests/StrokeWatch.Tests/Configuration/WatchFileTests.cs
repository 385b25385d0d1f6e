using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class WatchFileTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void The_example_files_are_read_and_state_the_defaults()
    {
        var example = Path.Combine(Repository(), "systemd", "strokewatch.toml");
        var result = WatchFile.Read(example);
        Assert.Empty(result.Errors);
        var watch = result.Value!;
        Assert.Equal("Cullet feeder", watch.Feeder.Name);
        Assert.Equal("/dev/ttyACM0", watch.Sensor.Port);
        Assert.Equal(SensorProtocol.Frames, watch.Sensor.Protocol);
        Assert.Equal(SensorSettings.DefaultBaud, watch.Sensor.Baud);
        Assert.Equal(new StoreSettings("/var/lib/strokewatch/strokewatch.db", WatchFile.DefaultKeepDays), watch.Store);
        Assert.Equal(new AlarmDelays(), watch.Alarms);
        Assert.Equal(LogLevelName.Information, watch.LogLevel);
        Assert.Equal(40 * Gravity.Standard, watch.Sensor.FullScale);
    }

    [Fact]
    public void Every_value_is_taken_from_the_file()
    {
        folder.Write("sand.toml", Examples.Least);
        var watch = WatchFile.Read(folder.Write("watch.toml", """
            feeder = "sand.toml"
            [sensor]
            port = "/dev/ttyUSB0"
            protocol = "lines"
            baud = 115200
            unit = "counts"
            counts_per_g = 25600
            rate_hz = 3200
            full_scale_g = 20
            axes = "xz"
            [store]
            path = "data/sand.db"
            keep_days = 7
            [alarms]
            over_stroke_after_s = 0
            hysteresis = "1 mil"
            [log]
            level = "debug"
            """)).Value!;
        Assert.Equal(SensorProtocol.Lines, watch.Sensor.Protocol);
        Assert.Equal(115_200, watch.Sensor.Baud);
        Assert.Equal(AccelerationUnit.Counts, watch.Sensor.Unit);
        Assert.Equal(25_600, watch.Sensor.CountsPerG);
        Assert.Equal(3200, watch.Sensor.RateHz);
        Assert.Equal([Axis.X, Axis.Z], watch.Sensor.Axes);
        Assert.Equal(20 * Gravity.Standard, watch.Feeder.Sensor.FullScale);
        Assert.Equal(new StoreSettings(folder.At("data/sand.db"), 7), watch.Store);
        Assert.Equal(0, watch.Alarms.OverStrokeAfterSeconds);
        Assert.Equal(25.4e-6, watch.Alarms.Hysteresis.Metres, 12);
        Assert.Equal(LogLevelName.Debug, watch.LogLevel);
    }

    [Fact]
    public void Errors_of_both_files_come_at_once()
    {
        folder.Write("sand.toml", Examples.Least.Replace("supply_hz = 50", "supply_hz = 5", StringComparison.Ordinal));
        var errors = WatchFile.Read(folder.Write("watch.toml", """
            feeder = "sand.toml"
            [sensor]
            protocol = "lines"
            baud = 12
            [store]
            path = ""
            [log]
            level = "loud"
            """)).Errors;
        Assert.Equal(
            ["watch.toml:2", "watch.toml:2", "watch.toml:2", "watch.toml:4", "watch.toml:6", "watch.toml:8", "sand.toml:2"],
            errors.Select(e => $"{Path.GetFileName(e.File)}:{e.Line}"));
    }

    private static string Repository()
    {
        var at = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(at.FullName, "StrokeWatch.sln")))
        {
            at = at.Parent ?? throw new InvalidOperationException("The tests must run inside the repository.");
        }

        return at.FullName;
    }
}
