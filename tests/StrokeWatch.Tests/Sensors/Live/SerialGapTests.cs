using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Tests.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Live;

/// <summary>What happens to serial sensors in the field beside a pulled plug: another number after replugging, wrong baud rates, adapters that hold bytes back.</summary>
[Collection(Undisturbed.Name)]
public sealed class SerialGapTests
{
    private readonly FakeTimeProvider time = new();
    private readonly List<SensorEvent> events = [];
    private readonly SampleBlock block = new(3, 512);

    [SkippableFact]
    [SupportedOSPlatform("linux")]
    public void A_sensor_that_returns_under_another_number_is_found_by_its_lasting_name()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "The test makes pseudo-terminals as Linux does.");
        var folder = Directory.CreateTempSubdirectory("strokewatch-by-id-");
        try
        {
            // What udev keeps under /dev/serial/by-id: a link that is made anew, to whatever number the port has now.
            var lasting = Path.Combine(folder.FullName, "usb-tray_sensor_0001-if00");
            var first = PseudoTerminal.Create();
            File.CreateSymbolicLink(lasting, first.SlavePath);
            using var source = LiveSensors.Make(new(), SerialPorts.Opener(new() { Path = lasting }), TimeProvider.System, events.Add);
            var stream = new TestStream();
            Assert.Equal(SourceState.Nothing, source.Read(block));
            Assert.True(first.WriteAll(stream.Samples(), 1000));
            Assert.True(Reads(source));

            first.Dispose();
            File.Delete(lasting);
            Assert.Equal(SourceState.Lost, source.Read(block));
            using var other = PseudoTerminal.Create();
            using var second = PseudoTerminal.Create();
            File.CreateSymbolicLink(lasting, second.SlavePath);

            // What is sent before the port is open again is thrown away when it is opened: wait for that, however many reads it takes.
            var asked = Stopwatch.StartNew();
            while (source.Read(block) == SourceState.Lost && asked.Elapsed < TimeSpan.FromSeconds(10))
            {
            }

            for (var i = 0; i < 50; i++)
            {
                _ = stream.Samples();
            }

            Assert.True(second.WriteAll(stream.Samples(), 1000));
            Assert.True(Reads(source));
            Assert.Equal(400, block.MissingBefore);
            Assert.Equal(1, source.Counters.Reopenings);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void Bytes_at_a_wrong_baud_rate_are_told_as_such_once()
    {
        var link = new MemoryLink();
        using var source = LiveSensors.Make(new(), link, time, events.Add);
        var stream = new TestStream();
        for (var i = 0; i < 60; i++)
        {
            // At half the rate every bit is read twice, so that each byte becomes two others.
            link.Write(Doubled(stream.Samples(40)));
            _ = source.Read(block);
            time.Advance(TimeSpan.FromMilliseconds(100));
        }

        Assert.Equal(0, source.Counters.Samples);
        var told = Assert.Single(events);
        Assert.Equal(SensorEventKind.Contradiction, told.Kind);
        Assert.Contains("bytes come, but nothing of the protocol frames is among them; baud rates that do not agree look like this: check `baud`", told.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_board_that_greets_before_its_first_frame_is_not_told()
    {
        var link = new MemoryLink();
        using var source = LiveSensors.Make(new(), link, time, events.Add);
        link.Write(Encoding.ASCII.GetBytes(new string('#', 1500) + "\r\nready\r\n"));
        _ = source.Read(block);
        time.Advance(TimeSpan.FromSeconds(3));
        link.Write(new TestStream().Samples());
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal([SensorEventKind.Back], events.Select(e => e.Kind));
    }

    [Fact]
    public void An_adapter_that_holds_bytes_back_for_16_ms_changes_nothing_in_frames()
    {
        var link = new MemoryLink();
        using var source = LiveSensors.Make(new(), link, time, events.Add);
        var stream = new TestStream { ClockRateHz = 3920 };
        var samples = 0L;
        for (var burst = 1; burst < 1600; burst++)
        {
            // All that came in 16 ms at once: 62 or 63 samples.
            time.Advance(TimeSpan.FromMilliseconds(16));
            var count = (int)((burst * 0.016 * 3920) - samples);
            link.Write(stream.Samples(count));
            samples += count;

            Assert.Equal(SourceState.Samples, source.Read(block));
            Assert.False(block.GapBefore);
        }

        Assert.Equal(3920, source.MeasuredRateHz!.Value, 0.01);
        Assert.Equal(0, source.Counters.Gaps);
    }

    [Fact]
    public void An_adapter_that_holds_bytes_back_for_16_ms_blurs_the_rate_of_lines_by_less_than_16_ms_in_10_s()
    {
        var link = new MemoryLink();
        using var source = LiveSensors.Make(new() { Protocol = LiveSensors.Lines }, link, time, events.Add);
        var sent = 0L;
        for (var burst = 1; burst < 1000; burst++)
        {
            time.Advance(TimeSpan.FromMilliseconds(16));
            var text = new StringBuilder();
            for (; sent < burst * 0.016 * 800; sent++)
            {
                text.Append(CultureInfo.InvariantCulture, $"0.1,0.2,{1 + (sent % 7 * 0.01)}\n");
            }

            link.Write(Encoding.ASCII.GetBytes(text.ToString()));
            Assert.Equal(SourceState.Samples, source.Read(block));
        }

        // 16 ms in 10 s, and the one line that the listener joined in the middle of.
        Assert.Equal(800, source.MeasuredRateHz!.Value, (800 * 0.0016) + 0.1);
    }

    private bool Reads(LiveSensorSource source)
    {
        for (var tries = 0; tries < 20; tries++)
        {
            if (source.Read(block) == SourceState.Samples)
            {
                return true;
            }
        }

        return false;
    }

    private static byte[] Doubled(byte[] bytes)
    {
        var twice = new byte[2 * bytes.Length];
        for (var i = 0; i < bytes.Length; i++)
        {
            for (var bit = 0; bit < 16; bit++)
            {
                twice[(2 * i) + (bit / 8)] |= (byte)((bytes[i] >> (bit / 2) & 1) << (bit % 8));
            }
        }

        return twice;
    }
}
