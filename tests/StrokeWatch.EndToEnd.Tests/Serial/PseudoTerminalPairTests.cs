using System.Diagnostics;
using System.Runtime.Versioning;
using StrokeWatch.EndToEnd.Tests.Live;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Serial;

[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class PseudoTerminalPairTests(ITestOutputHelper output) : IDisposable
{
    private const int Frames = 3750;
    private const int Patience = 5000;
    private readonly Random random = new(20261125);
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-serial-").FullName;
    private readonly List<long> expectedGaps = [];
    private PseudoTerminal? cable;
    private CableDevice device = new(1);
    private long lostInRow;
    private long lost;
    private long repeated;
    private long damaged;
    private long rubbish;

    private string SensorPath => Path.Combine(folder, "tray-sensor");

    public void Dispose()
    {
        cable?.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>
    /// 30 s at 4 kHz on three axes through a real pair: rubbish between frames, frames dropped, damaged and repeated; the port pulled out and put
    /// back while the device counts on, and once more with the device started anew.
    /// </summary>
    [SkippableFact]
    public async Task Every_loss_on_a_cable_is_reported_exactly_and_nothing_else_is_lost()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        var watch = Stopwatch.StartNew();
        var before = Process.GetCurrentProcess().TotalProcessorTime;
        PlugIn();
        using var reader = new CableReader(SensorPath);
        reader.WaitForOpening();
        await Task.Run(() => Play(reader)).WaitAsync(TimeSpan.FromSeconds(120));

        var counters = reader.Source.Counters;
        var kinds = reader.Events.Select(e => e.Kind).ToArray();
        output.WriteLine($"{Frames} frames in {watch.Elapsed.TotalSeconds:0.0} s, {(Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds:0.0} s of processor");
        output.WriteLine($"lost {lost} samples in {expectedGaps.Count} gaps; damaged {damaged}, repeated {repeated}, rubbish {rubbish} bytes");
        output.WriteLine(string.Join(", ", counters.Rejected.Select(r => $"{r.Key} {r.Value}")) + $"; skipped {counters.SkippedBytes} bytes");
        foreach (var happened in reader.Events)
        {
            output.WriteLine($"{happened.AtSeconds:0.000} s {happened.Words}");
        }

        Assert.Equal(string.Empty, reader.Fault);
        Assert.True(lost > 1000 && repeated > 10 && damaged > 10 && rubbish > 1000, "the cable was too good to prove anything");
        Assert.Equal(expectedGaps, reader.Gaps);
        Assert.Equal(expectedGaps.Count, counters.Gaps);
        Assert.Equal(lost, counters.MissingSamples);
        Assert.Equal((Frames * (long)CableDevice.PerFrame) - lost, counters.Samples);
        Assert.Equal(repeated, counters.Rejected["order"]);
        Assert.Equal(2, counters.Reopenings);
        Assert.Equal(2, counters.Rejected["joining"]);
        Assert.DoesNotContain(SensorEventKind.Contradiction, kinds);
        Assert.Equal(2, kinds.Count(kind => kind == SensorEventKind.Lost));
        Assert.Equal(3, kinds.Count(kind => kind == SensorEventKind.Back));
        Assert.Equal(1, kinds.Count(kind => kind == SensorEventKind.Restarted));
    }

    [SkippableFact]
    public void A_simulated_sensor_keeps_its_rate_over_a_real_cable()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        PlugIn();
        using var source = LiveSensors.Make(new(), SerialPorts.Opener(new() { Path = SensorPath }), TimeProvider.System);
        using var sensor = new SimulatedSensor(new Ramp(), cable!, new(), TimeProvider.System);
        var block = new SampleBlock(3, 1000);

        // A first read opens the port, as a listener that was there before the sensor.
        Assert.Equal(SourceState.Nothing, source.Read(block));
        var watch = Stopwatch.StartNew();
        sensor.Start();
        while (source.Counters.Samples < 12000 && watch.Elapsed < TimeSpan.FromSeconds(30))
        {
            _ = source.Read(block);
        }

        output.WriteLine($"{source.Counters.Samples} samples in {watch.Elapsed.TotalSeconds:0.000} s, gaps {source.Counters.Gaps}");
        Assert.True(source.Counters.Samples >= 12000);
        Assert.True(watch.Elapsed > TimeSpan.FromSeconds(2.8));
        Assert.Equal(0, sensor.DroppedFrames);
        Assert.Equal((0, 0), (source.Counters.Gaps, source.Counters.MissingSamples));
        Assert.Empty(source.Counters.Rejected);
    }

    private void Play(CableReader reader)
    {
        for (var i = 0; i < Frames; i++)
        {
            if (i is 1250 or 2500)
            {
                i += Replug(reader, startAnew: i == 2500);
            }

            // Within a longest frame's length of a stop nothing may hold a good frame up.
            var quiet = i % 1250 is > 1240 or < 2;
            if (i % 125 == 0)
            {
                Send(device.Announcement());
            }

            SendOne(quiet);
        }

        CloseGap();
        reader.WaitForSample(device.Samples);
    }

    private void SendOne(bool quiet)
    {
        var frame = device.Frame();
        var chance = quiet ? 1 : random.NextDouble();
        if (chance < 0.06)
        {
            SendRubbish();
        }

        if (chance is > 0.05 and < 0.09)
        {
            Lose();
            return;
        }

        if (chance is > 0.09 and < 0.11)
        {
            var spoilt = frame.ToArray();
            spoilt[random.Next(spoilt.Length)] ^= (byte)random.Next(1, 256);
            Send(spoilt);
            damaged++;
            Lose();
            return;
        }

        CloseGap();
        Send(frame);
        if (chance is > 0.11 and < 0.13)
        {
            Send(frame);
            repeated++;
        }
    }

    private void SendRubbish()
    {
        var bytes = new byte[random.Next(1, 60)];
        random.NextBytes(bytes);
        if (random.Next(2) == 0)
        {
            bytes = [.. bytes, 0xA5, 0x57, 0x11, 0, (byte)random.Next(256), (byte)random.Next(5), 0, 0, 0, 0, 7, 1, .. bytes];
        }

        rubbish += bytes.Length;
        Send(bytes);
    }

    /// <summary>Pulls the plug, lets the device go on unheard or start anew, and plugs in again; gives the frames that passed.</summary>
    private int Replug(CableReader reader, bool startAnew)
    {
        reader.WaitForSample(device.Samples);
        cable!.Dispose();
        File.Delete(SensorPath);
        reader.WaitFor(() => reader.State == SourceState.Lost, "the loss");
        var passed = 100;
        if (startAnew)
        {
            device = new(2);
            expectedGaps.Add(0);
            passed = 0;
        }

        for (var i = 0; i < passed; i++)
        {
            _ = device.Frame();
            Lose();
        }

        PlugIn();
        reader.WaitForOpening();

        // The listener joins in the middle of a frame.
        Send(device.Announcement()[20..]);
        return passed;
    }

    private void PlugIn()
    {
        cable = PseudoTerminal.Create();
        File.CreateSymbolicLink(SensorPath, cable.SlavePath);
    }

    private void Send(ReadOnlySpan<byte> bytes) => Assert.True(cable!.WriteAll(bytes, Patience), "nobody reads the cable");

    private void Lose()
    {
        lost += CableDevice.PerFrame;
        lostInRow += CableDevice.PerFrame;
    }

    private void CloseGap()
    {
        if (lostInRow > 0)
        {
            expectedGaps.Add(lostInRow);
            lostInRow = 0;
        }
    }

    private sealed class Ramp : ISampleSource
    {
        private long next;

        public SourceInfo Info { get; } = new() { Format = "ramp", Axes = [Axis.X, Axis.Y, Axis.Z] };

        public SourceCounters Counters { get; } = new();

        public SourceState Read(SampleBlock block)
        {
            for (var i = 0; i < block.Capacity; i++, next++)
            {
                for (var axis = 0; axis < 3; axis++)
                {
                    block.Fill(axis)[i] = (next % 1000) * 0.1;
                }
            }

            block.SetCount(block.Capacity);
            return SourceState.Samples;
        }

        public void Dispose()
        {
        }
    }
}
