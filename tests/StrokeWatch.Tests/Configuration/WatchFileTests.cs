using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Lines;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;
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
        Assert.Equal(new SerialSettings { Path = "/dev/ttyACM0" }, watch.Port);
        Assert.Equal(LiveSensors.Frames, watch.Sensor.Protocol);
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
            time = "us"
            [store]
            path = "data/sand.db"
            keep_days = 7
            [alarms]
            danger_after_s = 0
            lost_after_s = 30
            [log]
            level = "debug"
            """)).Value!;
        Assert.Equal(new SerialSettings { Path = "/dev/ttyUSB0", BaudRate = 115_200 }, watch.Port);
        Assert.Equal(LiveSensors.Lines, watch.Sensor.Protocol);
        Assert.Equal(AccelerationUnit.Counts, watch.Sensor.Lines.Unit);
        Assert.Equal(9.80665 / 25_600, watch.Sensor.Lines.CountScale, 15);
        Assert.Equal(TimeColumn.Microseconds, watch.Sensor.Lines.Time);
        Assert.Equal(3200, watch.Sensor.RateHz);
        Assert.Equal([Axis.X, Axis.Z], watch.Sensor.Axes);
        Assert.Equal(20 * Gravity.Standard, watch.Feeder.Sensor.FullScale);
        Assert.Equal(new StoreSettings(folder.At("data/sand.db"), 7), watch.Store);
        Assert.Equal(new AlarmDelays { DangerOn = 0, SilenceOn = 30 }, watch.Alarms);
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
            ["watch.toml:2", "watch.toml:2", "watch.toml:4", "watch.toml:6", "watch.toml:8", "sand.toml:2"],
            errors.Select(e => $"{Path.GetFileName(e.File)}:{e.Line}"));
    }

    [Fact]
    public void That_lines_end_with_the_supply_s_voltage_is_for_lines_alone()
    {
        folder.Write("sand.toml", Examples.Least);
        string File(string speech) => folder.Write("watch.toml", $"feeder = \"sand.toml\"\n[sensor]\nport = \"/dev/ttyACM0\"\n{speech}\nsupply = true\n[store]\npath = \"s.db\"");
        Assert.Contains("`supply` is for protocol \"lines\"", Assert.Single(WatchFile.Read(File("protocol = \"frames\"")).Errors).Message, StringComparison.Ordinal);
        var lines = Assert.Single(WatchFile.Read(File("protocol = \"lines\"\nunit = \"g\"")).Value!.Ports).Sensor.Lines;
        Assert.Equal((true, 4), (lines.Supply, lines.Columns));
    }

    [Fact]
    public void What_only_lines_need_is_refused_for_frames()
    {
        folder.Write("sand.toml", Examples.Least);
        var error = Assert.Single(WatchFile.Read(folder.Write(
            "watch.toml", "feeder = \"sand.toml\"\n[sensor]\nport = \"/dev/ttyACM0\"\nprotocol = \"frames\"\nunit = \"g\"\n[store]\npath = \"s.db\"")).Errors);
        Assert.Equal(5, error.Line);
        Assert.Contains("frames say it themselves", error.Message);
    }

    internal static string Repository()
    {
        var at = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(at.FullName, "StrokeWatch.sln")))
        {
            at = at.Parent ?? throw new InvalidOperationException("The tests must run inside the repository.");
        }

        return at.FullName;
    }
}
