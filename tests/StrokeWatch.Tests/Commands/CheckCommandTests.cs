using System.Runtime.Versioning;
using StrokeWatch.Commands;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Tests.Configuration;
using StrokeWatch.Tests.Outputs.Influx;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class CheckCommandTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();
    private readonly ChipProbe chips = new(TimeProvider.System);
    private readonly StringWriter output = new();
    private readonly StringWriter error = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_good_configuration_with_its_sensor_speaking_says_what_to_do_next()
    {
        Assert.Equal(0, CheckCommand.Run(Configuration("port"), null, output, error, new Fixed(null), chips));
        Assert.Equal("", error.ToString());
        Assert.Contains("sand.toml: sand, 50 strokes a second, band 1.500 mm (0.0591 in) to 1.600 mm (0.0630 in), limit 1.727 mm (0.0680 in)", output.ToString());
        Assert.EndsWith($"next     strokewatch watch --config {folder.At("watch.toml")}", output.ToString().TrimEnd());
        Assert.Equal(2, Directory.GetFiles(folder.Path).Length);
    }

    [Fact]
    public void A_port_that_is_not_there_and_a_folder_that_is_missing_are_both_said()
    {
        Assert.Equal(1, CheckCommand.Run(Configuration("port", "nowhere/store.db"), null, output, error, TimeProvider.System));
        Assert.Collection(
            Lines(error),
            l => Assert.StartsWith($"trouble  serial port {folder.At("port")}: not there; plug the sensor in", l, StringComparison.Ordinal),
            l => Assert.EndsWith($"create the folder {folder.At("nowhere")}", l, StringComparison.Ordinal));
        Assert.DoesNotContain("next", output.ToString());
    }

    [Fact]
    public void What_the_probe_of_the_port_finds_is_said()
    {
        Assert.Equal(1, CheckCommand.Run(Configuration("port"), null, output, error, new Fixed("the port is held by another program: close it"), chips));
        Assert.Equal("trouble  the port is held by another program: close it", Assert.Single(Lines(error)));
    }

    [Fact]
    public void A_converter_for_the_supply_that_is_not_there_is_said()
    {
        var configuration = Configuration("port");
        File.AppendAllText(configuration, "\n[supply]\nconverter = \"ads1115\"\ndevice = \"/dev/i2c-247\"\nrange_v = 4.096\n");
        Assert.Equal(1, CheckCommand.Run(configuration, null, output, error, TimeProvider.System));
        Assert.Contains(Lines(error), line => line == "trouble  ADS1115 on /dev/i2c-247, input 0: /dev/i2c-247 is not there; switch the bus on in the board's configuration and look with ls /dev/i2c*");
    }

    [Fact]
    public void A_machine_book_that_is_none_is_said()
    {
        var configuration = Configuration("port");
        File.WriteAllText(folder.At("sand.book.sqlite"), "not a database, but some text that is long enough to be taken for the head of one");
        Assert.Equal(1, CheckCommand.Run(configuration, null, output, error, new Fixed(null), chips));
        Assert.Contains("sand.book.sqlite: is damaged or no machine book", Assert.Single(Lines(error)), StringComparison.Ordinal);
    }

    [SkippableFact]
    [SupportedOSPlatform("linux")]
    public void A_port_is_opened_and_listened_to()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "The test makes a pseudo-terminal as Linux does.");
        using var terminal = PseudoTerminal.Create();
        var settings = new SerialSettings { Path = terminal.SlavePath };
        Assert.EndsWith("check the sensor's supply, its baud rate and its firmware", new SerialPortProbe().Trouble(settings), StringComparison.Ordinal);

        // Opening throws away what came before it: the sensor goes on speaking, from a thread that no other test can hold up.
        var heard = false;
        var speaking = new Thread(() =>
        {
            while (!Volatile.Read(ref heard))
            {
                terminal.Write("0.1,0.2,1.0\n"u8);
                Thread.Sleep(50);
            }
        });
        speaking.Start();
        var trouble = new SerialPortProbe().Trouble(settings);
        Volatile.Write(ref heard, true);
        speaking.Join();
        Assert.Null(trouble);
    }

    [Fact]
    public void All_errors_of_both_files_come_at_once_with_status_two()
    {
        folder.Write("sand.toml", "[drive]\nsupply_hz = 5\nstrokes_per_cycle = 3\n[stroke]\nlow = 1\nhigh = \"2\"");
        var configuration = folder.Write("watch.toml", "feeder = \"sand.toml\"\n[sensor]\nport = \"x\"\nprotocol = \"frame\"\n[store]\npath = \"s.db\"");
        Assert.Equal(2, CheckCommand.Run(configuration, folder.At("sand.toml"), output, error, TimeProvider.System));
        Assert.Equal(5, Lines(error).Length);
        Assert.Equal("", output.ToString());
    }

    [Fact]
    public void A_feeder_file_can_be_checked_alone()
    {
        Assert.Equal(0, CheckCommand.Run(null, folder.Write("sand.toml", Examples.Least), output, error, TimeProvider.System));
        Assert.StartsWith("ok       feeder file", output.ToString(), StringComparison.Ordinal);
        Assert.Equal(2, CheckCommand.Run(null, folder.At("missing.toml"), output, error, TimeProvider.System));
        Assert.EndsWith("missing.toml: there is no such file; check the path", Assert.Single(Lines(error)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(204, null)]
    [InlineData(400, null)]
    [InlineData(401, "does not take the token (401")]
    [InlineData(404, "check url, org and bucket")]
    [InlineData(503, "takes nothing now (503")]
    [InlineData(0, "does not answer")]
    public void Whether_the_time_series_server_would_take_rows_is_asked_and_said(int status, string? trouble)
    {
        using var server = new FakeInflux { Answer = _ => new(status) { Abort = status == 0 } };
        var configuration = folder.Write("influx.toml", $"{File.ReadAllText(Configuration("port"))}\n[influx]\nurl = \"{server.Url}\"\norg = \"glass\"\nbucket = \"feeders\"");
        Assert.Equal(trouble is null ? 0 : 1, CheckCommand.Run(configuration, null, output, error, new Fixed(null), chips));
        Assert.Contains(trouble ?? $"ok       time-series server {server.Url}: answers, and would take rows", (trouble is null ? output : error).ToString(), StringComparison.Ordinal);
        Assert.Empty(server.Kept);
    }

    private static string[] Lines(StringWriter writer) => writer.ToString().Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries);

    private string Configuration(string port, string store = "store.db")
    {
        folder.Write("sand.toml", Examples.Least);
        return folder.Write("watch.toml", $"feeder = \"sand.toml\"\n[sensor]\nport = \"{folder.At(port)}\"\nprotocol = \"frames\"\n[store]\npath = \"{store}\"");
    }

    private sealed class Fixed(string? trouble) : IPortProbe
    {
        public string? Trouble(SerialSettings port) => trouble;
    }
}
