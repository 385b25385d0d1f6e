using System.Diagnostics;
using System.Runtime.Versioning;
using StrokeWatch.Sensors.Serial;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Serial;

[SupportedOSPlatform("linux")]
[Collection(Undisturbed.Name)]
public sealed class PortTests
{
    private readonly byte[] buffer = new byte[4096];

    public static TheoryData<bool> BothPorts => [true, false];

    [SkippableTheory]
    [MemberData(nameof(BothPorts))]
    public void Every_byte_value_passes_both_ways_unchanged(bool termios)
    {
        using var pair = Pair();
        using var port = Open(termios, pair.SlavePath).Source!;
        byte[] all = [.. Enumerable.Range(0, 256).Select(i => (byte)i)];
        Assert.True(pair.WriteAll(all, 2000));
        var heard = new List<byte>();
        for (var i = 0; i < 50 && heard.Count < 256; i++)
        {
            Assert.NotEqual(ReadStatus.Closed, port.Read(buffer, out var count));
            heard.AddRange(buffer.AsSpan(0, count));
        }

        Assert.Equal(all, heard);

        // No echo came back.
        Assert.Equal(ReadStatus.Nothing, pair.Read(buffer, out _));
    }

    [SkippableTheory]
    [MemberData(nameof(BothPorts))]
    public void Silence_is_said_after_about_a_fifth_of_a_second(bool termios)
    {
        using var pair = Pair();
        using var port = Open(termios, pair.SlavePath).Source!;
        var watch = Stopwatch.StartNew();
        Assert.Equal(ReadStatus.Nothing, port.Read(buffer, out var count));
        Assert.Equal(0, count);
        Assert.InRange(watch.ElapsedMilliseconds, 150, 2000);
    }

    [SkippableTheory]
    [MemberData(nameof(BothPorts))]
    public async Task A_pulled_plug_ends_the_wait_at_once_and_the_port_closes(bool termios)
    {
        var pair = Pair();
        var port = Open(termios, pair.SlavePath).Source!;
        Assert.Equal(ReadStatus.Nothing, port.Read(buffer, out _));
        var reading = Task.Run(() =>
        {
            while (true)
            {
                if (port.Read(buffer, out _) == ReadStatus.Closed)
                {
                    return TimeProvider.System.GetTimestamp();
                }
            }
        });
        await Task.Delay(50);
        var pulled = TimeProvider.System.GetTimestamp();
        pair.Dispose();
        var seen = await reading.WaitAsync(TimeSpan.FromSeconds(10));
        Assert.True(TimeProvider.System.GetElapsedTime(pulled, seen) < TimeSpan.FromSeconds(1));
        Assert.Equal(ReadStatus.Closed, port.Read(buffer, out _));
        await Task.Run(port.Dispose).WaitAsync(TimeSpan.FromSeconds(10));
        Assert.Equal(ReadStatus.Closed, port.Read(buffer, out _));
    }

    [SkippableTheory]
    [InlineData(9600)]
    [InlineData(250000)]
    [InlineData(921600)]
    [InlineData(1234567)]
    public void Any_baud_rate_can_be_set(int baud)
    {
        using var pair = Pair();
        using var port = Open(true, pair.SlavePath, baud).Source;
        Assert.NotNull(port);
    }

    [SkippableFact]
    public void Why_a_port_does_not_open_is_told_apart()
    {
        using var pair = Pair();
        Check("/dev/serial/by-id/no-such-sensor", OpenFault.Missing, "not there");
        Check("/dev/null", OpenFault.NotAPort, "not a serial port");
        Check(Path.GetTempPath(), OpenFault.NotAPort, "not a serial port");
        using var first = Open(true, pair.SlavePath).Source;
        Assert.NotNull(first);
        Check(pair.SlavePath, OpenFault.Busy, "in use");
        first.Dispose();
        using var second = Open(true, pair.SlavePath).Source;
        Assert.NotNull(second);

        static void Check(string path, OpenFault fault, string words)
        {
            var result = Open(true, path);
            Assert.Null(result.Source);
            Assert.True(fault == result.Fault, $"{result.Fault}: {result.Message}");
            Assert.Contains(path, result.Message, StringComparison.Ordinal);
            Assert.Contains(words, result.Message, StringComparison.Ordinal);
            Assert.DoesNotContain('\n', result.Message);
        }
    }

    [SkippableFact]
    public void A_port_that_this_user_may_not_open_is_told_with_the_group_to_join()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "Linux only");
        Skip.If(Environment.UserName == "root", "root may open everything");
        var path = Path.GetTempFileName();
        File.SetUnixFileMode(path, UnixFileMode.None);
        var result = Open(true, path);
        File.Delete(path);
        Assert.Equal(OpenFault.NoPermission, result.Fault);
        Assert.Contains("dialout", result.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Each_fault_has_one_line_that_says_what_to_do()
    {
        foreach (var fault in Enum.GetValues<OpenFault>().Where(fault => fault != OpenFault.None))
        {
            var message = OpenResult.Failed(fault, "/dev/ttyACM0", "the system's word").Message;
            Assert.StartsWith("serial port /dev/ttyACM0: ", message, StringComparison.Ordinal);
            Assert.Contains("; ", message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_portable_port_says_what_is_missing()
    {
        var path = OperatingSystem.IsWindows() ? "COM250" : "/dev/no-such-port";
        Assert.Equal(OpenFault.Missing, PortableSerialPort.Open(new() { Path = path }).Fault);
    }

    [SkippableFact]
    public void The_table_gives_this_system_its_port()
    {
        using var pair = Pair();
        var opener = SerialPorts.Opener(new() { Path = pair.SlavePath });
        Assert.Equal(pair.SlavePath, opener.Name);
        using var source = opener.Open().Source;
        Assert.IsType<TermiosPort>(source);
        Assert.NotNull(SerialPortNames.List());
    }

    [SkippableFact]
    public void Reading_allocates_nothing()
    {
        using var pair = Pair();
        using var port = Open(true, pair.SlavePath).Source!;
        var total = 0;
        for (var i = 0; i < 20; i++)
        {
            Turn();
        }

        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 100; i++)
        {
            Turn();
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(120 * 5, total);

        void Turn()
        {
            _ = pair.Write("12345"u8);
            _ = port.Read(buffer, out var count);
            total += count;
        }
    }

    [SkippableFact]
    public void A_cable_that_nobody_reads_fills_up_and_takes_no_more()
    {
        using var pair = Pair();
        long written = 0;
        int now;
        do
        {
            now = pair.Write(buffer);
            written += now;
        }
        while (now > 0 && written < 10_000_000);

        Assert.InRange(written, 1, 1_000_000);
        Assert.False(pair.WriteAll(buffer, 10));
    }

    [SkippableFact]
    public async Task A_cable_whose_reader_has_gone_takes_no_more_and_writing_ends()
    {
        using var pair = Pair();
        Open(true, pair.SlavePath).Source!.Dispose();

        // The hang-up wakes every wait at once: an end to the writing must not hang on the patience alone.
        var full = Task.Run(() =>
        {
            for (var i = 0; i < 10_000; i++)
            {
                if (!pair.WriteAll(buffer, 10))
                {
                    return true;
                }
            }

            return false;
        });
        Assert.True(await full.WaitAsync(TimeSpan.FromSeconds(20)));
    }

    private static OpenResult Open(bool termios, string path, int baud = 921600)
    {
        var settings = new SerialSettings { Path = path, BaudRate = baud };
        var result = termios ? TermiosPort.Open(settings) : PortableSerialPort.Open(settings);
        Assert.True(termios || result.Source is not null, result.Message);
        return result;
    }

    private static PseudoTerminal Pair()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        return PseudoTerminal.Create();
    }
}
