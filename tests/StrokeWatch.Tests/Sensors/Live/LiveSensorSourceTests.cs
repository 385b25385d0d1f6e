using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Frames;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Tests.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Live;

[Collection(Undisturbed.Name)]
public sealed class LiveSensorSourceTests
{
    private readonly FakeTimeProvider time = new();
    private readonly MemoryLink link = new();
    private readonly List<SensorEvent> events = [];
    private readonly SampleBlock block = new(3, 64);
    private int opened;

    private IEnumerable<SensorEventKind> Kinds => events.Select(e => e.Kind);

    [Fact]
    public void Samples_come_with_rate_scale_and_time_and_are_cut_to_the_block()
    {
        using var source = Make();
        var stream = new TestStream();
        link.Write([.. stream.Announcement(), .. stream.Samples(100), .. stream.Samples(20)]);
        int[] sizes = [64, 36, 20];
        var first = 0L;
        foreach (var size in sizes)
        {
            Assert.Equal(SourceState.Samples, source.Read(block));
            Assert.Equal(size, block.Count);
            Assert.Equal(4000, block.RateHz);
            Assert.Equal(32767 * 0.0625, block.FullScale);
            Assert.Equal(first / 4000.0, block.StartSeconds, 12);
            Assert.False(block.GapBefore);
            Assert.Equal(TestStream.Value(first + 5, 2), block[2][5]);
            first += size;
        }

        Assert.Equal(SourceState.Nothing, source.Read(block));
        Assert.Equal(0, block.Count);
        Assert.Equal(120, source.Counters.Samples);
        Assert.Equal(RateOrigin.Sensor, source.Info.RateFrom);
        Assert.Equal([SensorEventKind.Back], Kinds);
    }

    [Fact]
    public void A_sensor_that_is_not_there_at_the_start_is_lost_and_told_once()
    {
        link.Unplug();
        using var source = Make(new() { RateHz = 4000, FullScale = 2047 });
        for (var i = 0; i < 40; i++)
        {
            Assert.Equal(SourceState.Lost, source.Read(block));
        }

        Assert.Equal([SensorEventKind.Unreachable], Kinds);
        Assert.Equal(4000, source.Info.RateHz);
        Assert.Equal(RateOrigin.Option, source.Info.RateFrom);
        Assert.InRange(opened, 3, 5);

        link.Plug();
        link.Write(new TestStream().Samples());
        SourceState state;
        var tries = 0;
        while ((state = source.Read(block)) == SourceState.Lost && tries++ < 100)
        {
        }

        Assert.Equal(SourceState.Samples, state);
        Assert.False(block.GapBefore);
        Assert.Equal(0, source.Counters.Reopenings);
    }

    [Fact]
    public void A_device_that_goes_on_counting_while_unplugged_tells_exactly_what_is_missing()
    {
        using var source = Make();
        var stream = new TestStream();
        link.Write(stream.Samples());
        Assert.Equal(SourceState.Samples, source.Read(block));
        link.Unplug();
        Assert.Equal(SourceState.Lost, source.Read(block));
        for (var i = 0; i < 1000; i++)
        {
            _ = stream.Samples();
        }

        link.Plug();
        link.Write([1, 2, 3, .. stream.Samples()]);
        Assert.True(Again(source));
        Assert.True(block.GapBefore);
        Assert.Equal(8000, block.MissingBefore);
        Assert.Equal(8008 / 4000.0, block.StartSeconds, 12);
        Assert.Equal(TestStream.Value(8008, 1), block[1][0]);
        Assert.Equal((1, 8000L, 1), (source.Counters.Gaps, source.Counters.MissingSamples, source.Counters.Reopenings));
        Assert.Equal([SensorEventKind.Back, SensorEventKind.Lost, SensorEventKind.Back], Kinds);
        Assert.Contains("8000 are missing", events[2].Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_device_that_started_anew_is_placed_by_the_hosts_clock()
    {
        using var source = Make();
        link.Write(new TestStream(start: 1).Samples(40));
        Assert.Equal(SourceState.Samples, source.Read(block));
        link.Unplug();
        Assert.Equal(SourceState.Lost, source.Read(block));
        time.Advance(TimeSpan.FromSeconds(30));
        link.Plug();
        link.Write(new TestStream(start: 2).Samples(40));
        Assert.True(Again(source));
        Assert.True(block.GapBefore);
        Assert.Equal(0, block.MissingBefore);
        Assert.Equal(30, block.StartSeconds, 6);
        Assert.Equal([SensorEventKind.Back, SensorEventKind.Lost, SensorEventKind.Restarted, SensorEventKind.Back], Kinds);
        Assert.InRange(events[2].AtSeconds, 29.9, 30.1);
    }

    [Fact]
    public void What_the_sensor_says_wins_over_the_configuration_and_is_told()
    {
        using var source = Make(new() { RateHz = 3200, FullScale = 100 });
        var stream = new TestStream();
        link.Write([.. stream.Announcement(), .. stream.Samples(), .. stream.Announcement(), .. stream.Samples()]);
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal(4000, block.RateHz);
        Assert.Equal(2, Kinds.Count(kind => kind == SensorEventKind.Contradiction));
        Assert.Contains("rate: the sensor says 4000 Hz, the configuration 3200 Hz", events[0].Words, StringComparison.Ordinal);
        Assert.Contains("full scale", events[1].Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sensor_without_a_wanted_axis_is_turned_down_and_told()
    {
        using var source = Make();
        link.Write(new TestStream(axes: 5).Samples());
        Assert.Equal(SourceState.Nothing, source.Read(block));
        Assert.Equal(1, source.Counters.Rejected["axes"]);
        Assert.Contains("sends x, z, the configuration asks for x, y, z", events.Single().Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Wanted_axes_may_be_fewer_and_in_another_order()
    {
        using var source = Make(new() { Axes = [Axis.Z, Axis.X] });
        link.Write(new TestStream().Samples());
        var two = new SampleBlock(2, 64);
        Assert.Equal(SourceState.Samples, source.Read(two));
        Assert.Equal(TestStream.Value(3, 2), two[0][3]);
        Assert.Equal(TestStream.Value(3, 0), two[1][3]);
    }

    [Fact]
    public void A_rate_that_the_sensors_own_clock_disproves_is_replaced_and_told()
    {
        using var source = Make();
        var stream = new TestStream { ClockRateHz = 3880 };
        for (var i = 0; i < 600; i++)
        {
            link.Write(stream.Samples(80));
            Assert.Equal(SourceState.Samples, source.Read(block));
            Assert.Equal(SourceState.Samples, source.Read(block));
        }

        Assert.Equal(3880, block.RateHz!.Value, 0.001);
        Assert.Equal(3880, source.MeasuredRateHz!.Value, 0.001);
        Assert.Contains("its clock gives 3880 Hz", events.Single(e => e.Kind == SensorEventKind.Contradiction).Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Waiting_for_the_sensor_gives_its_word_and_loses_nothing()
    {
        using var source = Make();
        var stream = new TestStream();
        link.Write([.. stream.Samples(), .. stream.Announcement(), .. stream.Samples()]);
        Assert.Null(source.WaitForSensor(TimeSpan.FromSeconds(1)));
        Assert.Equal(4000, source.Info.RateHz);
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal(16, source.Counters.Samples);
    }

    [Fact]
    public void Waiting_in_vain_says_why_in_one_line()
    {
        link.Unplug();
        using var source = Make();
        var line = source.WaitForSensor(TimeSpan.FromSeconds(3));
        Assert.Contains("unplugged", line, StringComparison.Ordinal);
        link.Plug();
        using var silent = LiveSensors.Make(new(), link, TimeProvider.System);
        line = silent.WaitForSensor(TimeSpan.FromSeconds(0.3));
        Assert.Contains("the port is open, but nothing in the protocol frames", line, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', line!);
    }

    [Fact]
    public void After_its_end_a_source_says_so()
    {
        var source = Make();
        source.Dispose();
        Assert.Equal(SourceState.End, source.Read(block));
    }

    [Fact]
    public void Text_lines_are_just_another_protocol()
    {
        using var source = LiveSensors.Make(new() { Protocol = LiveSensors.Lines, RateHz = 500, Axes = [Axis.X] }, link, time, events.Add);
        link.Write("\n1\n2\n1x\n3\n"u8);
        var one = new SampleBlock(1, 8);
        Assert.Equal(SourceState.Samples, source.Read(one));
        Assert.Equal([9.80665, 2 * 9.80665], one[0].ToArray());
        Assert.Equal(SourceState.Samples, source.Read(one));
        Assert.Equal((true, 1L), (one.GapBefore, one.MissingBefore));
        Assert.Equal(3 / 500.0, one.StartSeconds, 12);
        Assert.Equal(RateOrigin.Option, source.Info.RateFrom);
    }

    [Fact]
    public void An_unknown_protocol_or_a_double_axis_is_refused()
    {
        Assert.Contains("use frames or lines", Assert.Throws<ArgumentException>(() => LiveSensors.Make(new() { Protocol = "x" }, link, time)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => LiveSensors.Make(new() { Axes = [Axis.X, Axis.X] }, link, time));
    }

    [Fact]
    public void The_steady_state_allocates_nothing()
    {
        using var source = Make();
        var stream = new TestStream();
        Give(40);
        byte[] bytes = [.. stream.Frames(100).SelectMany(f => f)];
        var before = GC.GetAllocatedBytesForCurrentThread();
        link.Write(bytes);
        var read = Take(100);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(100 * TestStream.PerFrame, read);

        void Give(int count)
        {
            link.Write([.. stream.Frames(count).SelectMany(f => f)]);
            _ = Take(count);
        }

        int Take(int count)
        {
            var read = 0;
            for (var i = 0; i < count && source.Read(block) == SourceState.Samples; i++)
            {
                read += block.Count;
            }

            return read;
        }
    }

    private bool Again(LiveSensorSource source)
    {
        for (var i = 0; i < 100; i++)
        {
            if (source.Read(block) == SourceState.Samples)
            {
                return true;
            }
        }

        return false;
    }

    private LiveSensorSource Make(SensorSettings? settings = null)
    {
        settings ??= new();
        var counters = new SourceCounters();
        var info = new SourceInfo
        {
            Format = settings.Protocol,
            Axes = settings.Axes,
            RateHz = settings.RateHz,
            RateFrom = settings.RateHz is null ? RateOrigin.Sensor : RateOrigin.Option,
            FullScale = settings.FullScale,
        };
        return new(new Counting(link, () => opened++), new FrameDecoder(counters), info, counters, time, events.Add, wait => time.Advance(wait));
    }

    private sealed class Counting(IByteSourceOpener inner, Action count) : IByteSourceOpener
    {
        public string Name => inner.Name;

        public OpenResult Open()
        {
            count();
            return inner.Open();
        }
    }
}
