using System.Runtime.Versioning;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>What <c>check</c> says of a sensor at a serial port: in order, and with what is amiss one thing to do.</summary>
[SupportedOSPlatform("linux")]
[Collection(RealTime.Name)]
public sealed class PortWalkTests : IDisposable
{
    private const string Frames = "protocol = \"frames\"";
    private const string Lines = "protocol = \"lines\"\nunit = \"g\"\ntime = \"us\"\nrate_hz = 1600\nfull_scale_g = 32";

    private readonly TrayBench bench = new();

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task A_good_sensor_on_a_running_feeder_is_walked_from_its_frames_to_the_supply()
    {
        bench.Sensor.PlugFrames(Tray());
        var outcome = await Check(Frames);
        Assert.Equal((0, ""), (outcome.Status, outcome.Error));
        string[] said = [.. outcome.Out.Split('\n').Where(line => line.Contains("tray-sensor:", StringComparison.Ordinal))];
        string[] wanted =
        [
            @"^ok .*frames come from ""simulated sensor"", \d{4,} samples",
            @"^ok .*no gap, nothing turned down",
            @"^ok .* 4\d{3} Hz by this computer's clock, within 0\.\d %; stated 4000 Hz$",
            @"^ok .*its clock against the mains: \+1\d\d\d ppm \(no crystal.*; the stroke is now 1\.51\d mm",
            @"^ok .*scatter \d+\.\d, \d+\.\d, \d+\.\d mg; the tray moves",
            @"^ok .*largest \d+\.\d g of 32 g: .*: it suits",
            @"^ok .*gravity reads (1\.0\d|0\.9\d) g, its z axis \d° from the vertical$",
            @"^ok .*supply 21[67]\.\d V true rms, 9[34]\.\d % of full voltage$",
        ];
        said = [.. said.Where(line => !line.Contains("open, and bytes come", StringComparison.Ordinal))];
        Assert.Equal(wanted.Length, said.Length);
        Assert.All(wanted.Zip(said), pair => Assert.Matches(pair.First, pair.Second));
        Assert.Contains("next     strokewatch watch", outcome.Out, StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task The_other_protocol_is_told_by_what_comes()
    {
        bench.Sensor.PlugFrames(Tray());
        Trouble(await Check(Lines), "frames come, the configuration says lines; write protocol = \"frames\"");
        bench.Sensor.Unplug();
        bench.Sensor.PlugLines(Tray(1600));
        Trouble(await Check(Frames), "text lines come, the configuration says frames; write protocol = \"lines\"");
        Trouble(await Check(Lines.Replace("time = \"us\"\n", "", StringComparison.Ordinal)), "text comes, but no line that is 3 axes");
        var good = await Check(Lines + "\nsupply = true");
        Assert.Equal(0, good.Status);
        Assert.Contains("V true rms", good.Out, StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task Who_holds_the_port_is_named()
    {
        bench.Sensor.PlugFrames(Tray());
        Configure(Frames);
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        await daemon.Until(() => daemon.Out.Contains("Cullet feeder", StringComparison.Ordinal) ? "measures" : null, "a reading");
        var outcome = await Running.Run(bench.Folder.Path, "check", "--config", "watch.toml");
        Assert.Equal(1, outcome.Status);
        Assert.Matches(@"in use by another program; close that program; it is \S+ \(process \d+\)", outcome.Error);
    }

    [SkippableFact]
    public async Task Rubbish_is_taken_for_another_baud_rate_and_a_bad_wire_is_counted()
    {
        using (var babble = new Sender(bench.Folder.At("tray-sensor"), cable =>
        {
            var bytes = new byte[200];
            Random.Shared.NextBytes(bytes);
            cable.Write(bytes);
        }))
        {
            Trouble(await Check(Frames), "baud rates that do not agree look like this: check `baud` (921600 now)");
        }

        using var cable = PseudoTerminal.Create();
        File.CreateSymbolicLink(bench.Folder.At("tray-sensor"), cable.SlavePath);
        using var sensor = new SimulatedSensor(Tray(), new BadWire(cable), new() { RateHz = TraySensor.RateHz, FullScale = 32 * Gravity.Standard }, TimeProvider.System);
        sensor.Start();
        Trouble(await Check(Frames), "check the cable's length, shield and ground");
        File.Delete(bench.Folder.At("tray-sensor"));
    }

    [SkippableFact]
    public async Task A_scale_that_cannot_be_is_told_by_gravity()
    {
        bench.Sensor.PlugLines(Tray(1600));
        var scaled = await Check(Lines.Replace("\"g\"", "\"m_s2\"", StringComparison.Ordinal) + "\nsupply = true");
        Assert.Matches(@"note .*gravity reads 0\.1\d g; its scale is wrong: correct `unit`", scaled.Out);
    }

    private static ISampleSource Tray(double rate = TraySensor.RateHz) => new SimulatedFeederSource(new FeederScenario
    {
        Name = "A cullet feeder on a supply that sags",
        Feeder = DemoScenario.Feeder,
        DurationSeconds = double.PositiveInfinity,
        Stroke = Length.FromMillimetres(TraySensor.StrokeMillimetres),
        Supply = new() { Voltage = [(0, 94)] },
        SupplyChannel = new(),
        Sensor = new() { RateHz = rate, NoiseG = 0.03, RateErrorPpm = 1500 },
    });

    private async Task<Outcome> Check(string speech)
    {
        Configure(speech);
        return await Running.Run(bench.Folder.Path, "check", "--config", "watch.toml");
    }

    private void Configure(string speech)
    {
        bench.Folder.Write("cullet.feeder.toml", DemoFeeder.Toml + DemoFeeder.Supply);
        bench.Folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{bench.Folder.At("tray-sensor")}\"\n{speech}\n[store]\npath = \"store.db\"\n");
    }

    private static void Trouble(Outcome outcome, string says)
    {
        Assert.Equal(1, outcome.Status);
        var line = Assert.Single(outcome.ErrorLines);
        Assert.StartsWith("trouble  ", line, StringComparison.Ordinal);
        Assert.True(line.Contains(says, StringComparison.Ordinal), line);
        Assert.DoesNotContain("next ", outcome.Out, StringComparison.Ordinal);
    }

    /// <summary>A wire on which one byte of each thirtieth piece is wrong.</summary>
    private sealed class BadWire(PseudoTerminal cable) : IByteSink
    {
        private int pieces;

        public int Write(ReadOnlySpan<byte> bytes)
        {
            var sent = bytes.ToArray();
            if (++pieces % 30 == 0)
            {
                sent[sent.Length / 2] ^= 0x10;
            }

            return cable.Write(sent);
        }
    }

    /// <summary>Somebody who sends again and again at the end of a cable.</summary>
    private sealed class Sender : IDisposable
    {
        private readonly string path;
        private readonly PseudoTerminal cable = PseudoTerminal.Create();
        private readonly ManualResetEventSlim stop = new(false);
        private readonly Thread thread;

        public Sender(string path, Action<PseudoTerminal> send)
        {
            this.path = path;
            File.CreateSymbolicLink(path, cable.SlavePath);
            thread = new(() =>
            {
                while (!stop.Wait(10))
                {
                    send(cable);
                }
            });
            thread.Start();
        }

        public void Dispose()
        {
            stop.Set();
            thread.Join();
            cable.Dispose();
            File.Delete(path);
        }
    }
}
