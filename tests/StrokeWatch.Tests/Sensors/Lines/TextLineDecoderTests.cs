using System.Globalization;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Lines;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Lines;

[Collection(Undisturbed.Name)]
public sealed class TextLineDecoderTests
{
    private readonly SourceCounters counters = new();
    private readonly FakeTimeProvider time = new();
    private readonly SampleRun run = new();
    private readonly List<double[]> samples = [];
    private readonly List<long?> gaps = [];
    private TextLineDecoder? decoder;
    private int restarts;

    [Theory]
    [InlineData("1.5,-2,3e-1")]
    [InlineData("1.5;-2;0.3")]
    [InlineData("1.5\t-2\t0.3")]
    [InlineData("1.5 -2  0.3")]
    [InlineData(" 1.5 , -2 , .3 ")]
    [InlineData("+1.5, -2.0 ,0.30\r")]
    public void Numbers_may_stand_between_commas_semicolons_tabs_or_spaces(string line)
    {
        Hear(new() { Unit = AccelerationUnit.MetresPerSecondSquared }, "\n" + line + "\n");
        Assert.Equal([1.5, -2, 0.3], Assert.Single(samples));
        Assert.Equal(["joining"], counters.Rejected.Keys);
    }

    [Fact]
    public void The_unit_is_the_configured_one()
    {
        Hear(new() { Unit = AccelerationUnit.G }, "\n1,0,-1\n");
        Assert.Equal([9.80665, 0, -9.80665], samples[0]);
        decoder = null;
        Hear(new() { Unit = AccelerationUnit.Counts, CountScale = 0.25, Axes = [Axis.Z] }, "\n100\n");
        Assert.Equal([25.0], samples[1]);
    }

    [Theory]
    [InlineData("1,2", "columns")]
    [InlineData("1,2,3,4", "columns")]
    [InlineData("1,2,31,2,3", "columns")]
    [InlineData("1,,3", "number")]
    [InlineData("1,2,x", "number")]
    [InlineData("1,2,3-", "number")]
    [InlineData("1,2,1.2.3", "number")]
    [InlineData("1,2,0x1F", "number")]
    [InlineData("1,2,\u00ff\u00fe", "number")]
    [InlineData("NaN,2,3", "range")]
    [InlineData("1,Infinity,3", "range")]
    [InlineData("1,2,1000", "range")]
    public void A_line_that_cannot_be_is_counted_and_leaves_a_gap_of_one(string line, string reason)
    {
        Hear(new() { FullScale = 400 }, "\n1,2,3\n" + line + "\n4,5,6\n");
        Assert.Equal(2, samples.Count);
        Assert.Equal([1L], gaps);
        Assert.Equal(1, counters.Rejected[reason]);
        Assert.Equal(2, counters.Rejected.Count);
    }

    [Fact]
    public void A_line_without_end_is_counted_once()
    {
        Hear(new(), "\n1,2,3\n");
        Hear(new(), new string('7', 3000));
        Hear(new(), new string('7', 3000) + "\n4,5,6\n");
        Assert.Equal(2, samples.Count);
        Assert.Equal(1, counters.Rejected["length"]);
        Assert.Equal([1L], gaps);
    }

    [Fact]
    public void Remarks_empty_lines_and_names_of_columns_are_passed_over()
    {
        Hear(new(), "\n# tray sensor\n\nx_g,y_g,z_g\r\n1,2,3\n# remark\n4,5,6\n");
        Assert.Equal(2, samples.Count);
        Assert.Empty(gaps);
        Assert.Equal(["joining"], counters.Rejected.Keys);
    }

    [Fact]
    public void Names_of_columns_after_samples_are_a_new_start()
    {
        Hear(new(), "\n1,2,3\nx,y,z\n4,5,6\n");
        Assert.Equal([(long?)null], gaps);
        Assert.Equal(1, restarts);
    }

    [Fact]
    public void A_stream_may_be_split_anywhere()
    {
        const string text = "\n1,2,3\nrubbish\n4,5,6\n7,8,9\n";
        for (var split = 0; split <= text.Length; split++)
        {
            decoder = null;
            samples.Clear();
            Hear(new(), text[..split]);
            Hear(new(), text[split..]);
            Assert.Equal(3, samples.Count);
        }
    }

    [Theory]
    [InlineData(TimeColumn.Microseconds, 250.0)]
    [InlineData(TimeColumn.Milliseconds, 2.0)]
    public void A_time_column_shows_lost_lines_and_a_new_start(TimeColumn column, double step)
    {
        var format = new TextLineFormat { Time = column, RateHz = column == TimeColumn.Microseconds ? 4000 : 500 };
        Hear(format, "\n" + Line(0) + Line(1) + Line(2) + Line(9) + Line(10) + Line(3) + Line(4));
        Assert.Equal([6L, null], gaps);
        Assert.Equal(1, restarts);
        Assert.Equal(7, samples.Count);

        string Line(int i) => string.Create(CultureInfo.InvariantCulture, $"{1000 + (i * step)},1,2,3\n");
    }

    [Fact]
    public void A_32_bit_time_column_wraps_without_a_trace()
    {
        var text = new StringBuilder("\n");
        for (var i = 0; i < 8; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"{unchecked((uint)(0xFFFFFC00u + (i * 250)))},1,2,3\n");
        }

        Hear(new() { Time = TimeColumn.Microseconds, RateHz = 4000 }, text.ToString());
        Assert.Equal(8, samples.Count);
        Assert.Empty(gaps);
    }

    [Fact]
    public void The_rate_is_measured_by_the_hosts_clock_where_nothing_says_it()
    {
        var burst = "\n" + string.Concat(Enumerable.Repeat("0.1,0.2,0.3\n", 50));
        for (var i = 0; i < 230; i++)
        {
            Hear(new(), burst);
            time.Advance(TimeSpan.FromMilliseconds(50.5));
        }

        Assert.Equal(50 / 0.0505, run.MeasuredRateHz!.Value, 0.001);
        decoder = null;
        Hear(new() { RateHz = 1000 }, burst);
        Assert.Null(run.MeasuredRateHz);
        Assert.Equal(1000, run.Sensor!.RateHz);
    }

    [Fact]
    public void The_rate_is_measured_by_the_time_column_where_there_is_one()
    {
        for (var i = 0; i < 3000; i++)
        {
            Hear(new() { Time = TimeColumn.Milliseconds }, string.Create(CultureInfo.InvariantCulture, $"{(i == 0 ? "\n" : string.Empty)}{i * 5},1,2,3\n"));
        }

        Assert.Equal(200, run.MeasuredRateHz!.Value, 0.01);
    }

    [Fact]
    public void What_is_missed_while_the_port_is_gone_nobody_knows()
    {
        Hear(new(), "\n1,2,3\n4,5");
        decoder!.Break();
        Hear(new(), ",6\n7,8,9\n");
        Assert.Equal(2, samples.Count);
        Assert.Equal([(long?)null], gaps);
        Assert.Equal(2, counters.Rejected["joining"]);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Random_bytes_never_throw(int seed)
    {
        var random = new Random(seed);
        var bytes = new byte[1000];
        decoder = new(new(), counters, time);
        for (var i = 0; i < 300; i++)
        {
            for (var j = 0; j < bytes.Length; j++)
            {
                bytes[j] = random.Next(3) == 0 ? (byte)"\n\n,;\t #x0123456789.-e"[random.Next(21)] : (byte)random.Next(256);
            }

            Feed(bytes);
        }

        Assert.All(samples, sample => Assert.All(sample, value => Assert.True(double.IsFinite(value))));
        Assert.True(counters.Rejected["columns"] > 100);
    }

    [Fact]
    public void The_steady_state_allocates_nothing()
    {
        decoder = new(new() { Time = TimeColumn.Microseconds }, counters, time);
        byte[][] pieces = [.. Enumerable.Range(0, 40).Select(i => Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{i * 250},0.25,-1.5,2\nx\n")))];
        Run(0, 20);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var count = Run(20, 40);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(20, count);

        int Run(int from, int to)
        {
            var count = 0;
            for (var i = from; i < to; i++)
            {
                _ = decoder.Feed(pieces[i]);
                while (decoder.Next(run) != DecodeState.None)
                {
                    count += run.Count;
                }
            }

            return count;
        }
    }

    [Fact]
    public void A_line_may_hold_the_axes_of_several_sensors_one_after_the_other()
    {
        var format = new TextLineFormat { Unit = AccelerationUnit.MetresPerSecondSquared, Sensors = 3, Axes = [Axis.X, Axis.Z], FullScale = 20 };
        Hear(format, "\n1,2,3,4,5,6\n1,2,3,4,5\n1,2,3,19.9,5,6\n");
        Assert.Equal([1, 2, 3, 4, 5, 6], samples[0]);
        Assert.Equal(2, samples.Count);
        Assert.Equal([1L], gaps);
        Assert.Equal(1, counters.Rejected["columns"]);
        Assert.Equal(SampleRun.ClippedMark(1, 3), run.Marks[0]);
        Assert.Equal(3, run.Sensor!.Sensors);
    }

    [Fact]
    public void A_line_of_eight_sensors_may_be_eight_times_as_long()
    {
        var format = new TextLineFormat { Unit = AccelerationUnit.MetresPerSecondSquared, Sensors = 8 };
        var line = string.Join(',', Enumerable.Range(1, 24).Select(n => n.ToString(CultureInfo.InvariantCulture).PadRight(60)));
        Assert.InRange(line.Length, 1400, 8 * 255);
        Hear(format, "\n" + line + "\n" + line.Replace(",", new string(' ', 40) + ",", StringComparison.Ordinal) + "\n1,2\n");
        Assert.Equal(Enumerable.Range(1, 24).Select(n => (double)n), Assert.Single(samples));
        Assert.Equal(1, counters.Rejected["length"]);
    }

    private void Hear(TextLineFormat format, string text)
    {
        decoder ??= new(format, counters, time);
        Feed(Encoding.Latin1.GetBytes(text));
    }

    private void Feed(ReadOnlySpan<byte> bytes)
    {
        while (!bytes.IsEmpty)
        {
            bytes = bytes[decoder!.Feed(bytes)..];
            while (decoder.Next(run) == DecodeState.Samples)
            {
                restarts += run.Restarted ? 1 : 0;
                if (run.GapBefore)
                {
                    gaps.Add(run.MissingBefore);
                }

                for (var i = 0; i < run.Count; i++)
                {
                    samples.Add([.. Enumerable.Range(0, run.Sensor!.Sensors * run.Sensor.Axes.Count).Select(channel => run[channel][i])]);
                }
            }
        }
    }
}
