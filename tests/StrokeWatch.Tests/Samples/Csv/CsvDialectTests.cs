using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Tests.Samples.Captures;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

/// <summary>Every way a table may be written must give the same four rows: x = 1.5, -2, 0.25, 3 and z = 10, 20, 30, 40 m/s² at 1 kHz.</summary>
public sealed class CsvDialectTests
{
    private const string Header = "t_s,x_m_s2,z_m_s2\n";

    [Theory]
    [InlineData("t_s,x_m_s2,z_m_s2\n0,1.5,10\n0.001,-2,20\n0.002,0.25,30\n0.003,3,40\n")]
    [InlineData("t_s;x_m_s2;z_m_s2\n0;1,5;10\n0,001;-2;20\n0,002;0,25;30\n0,003;3;40\n")]
    [InlineData("t_s;x_m_s2;z_m_s2\n0;1.5;10\n0.001;-2;20\n0.002;0.25;30\n0.003;3;40\n")]
    [InlineData("t_s\tx_m_s2\tz_m_s2\n0\t1,5\t10\n0,001\t-2\t20\n0,002\t0,25\t30\n0,003\t3\t40\n")]
    [InlineData("t_s x_m_s2 z_m_s2\n0 1.5 10\n0.001  -2 20\n 0.002 0.25   30\n0.003 3 40\n")]
    [InlineData("t_s x_m_s2 z_m_s2\n0 1,5 10,0\n0,001 -2,0 20,0\n0,002 0,25 30,0\n0,003 3,0 40,0\n")]
    [InlineData("t_s, x_m_s2, z_m_s2\r\n0, 1.5, 10\r\n0.001, -2, 20\r\n\r\n0.002, 0.25, 30\r\n0.003, 3, 40\r\n\r\n")]
    [InlineData("t_s,x_m_s2,z_m_s2\r0,1.5,10\r0.001,-2,20\r0.002,0.25,30\r0.003,3,40\r")]
    [InlineData("\uFEFF# sand feeder\n#\nt_s,x_m_s2,z_m_s2\n# begins\n0,1.5,10\n0.001,-2,20\n# midway, 1, 2\n0.002,0.25,30\n0.003,3,40")]
    [InlineData("\"t_s\",\"x_m_s2\",\"z_m_s2\"\n\"0\",\"1.5\",\"10\"\n\"0.001\",\"-2\",\"20\"\n\"0.002\", \"0.25\" ,\"30\"\n\"0.003\",\"3\",\"40\"\n")]
    [InlineData("\"t_s\";\"x_m_s2\";\"z_m_s2\"\n\"0\";\"1,5\";\"10\"\n\"0,001\";\"-2\";\"20\"\n\"0,002\";\"0,25\";\"30\"\n\"0,003\";\"3\";\"40\"\n")]
    [InlineData("t_s,x_m_s2,z_m_s2,\n0,1.5,10,\n0.001,-2,20,\n0.002,0.25,30,\n0.003,3,40,\n")]
    [InlineData("t_s,note,x_m_s2,z_m_s2\n0,start,1.5,10\n0.001,ok,-2,20\n0.002,,0.25,30\n0.003,\"a, b\",3,40\n")]
    [InlineData("t_s,x_m_s2,z_m_s2,note\n0,1.5,10,start\n0.001,-2,20,ok\n0.002,0.25,30,ok\n0.003,3,40,end\n")]
    [InlineData("time,x,z\ns,m/s^2,m/s^2\n0,1.5,10\n0.001,-2,20\n0.002,0.25,30\n0.003,3,40\n")]
    [InlineData("Time (ms),acc_x [m/s²],acc_z [m/s²]\n0,1.5,10\n1,-2,20\n2,0.25,30\n3,3,40\n")]
    [InlineData("TIMESTAMP_US,AX (mm/s^2),AZ (mm/s^2)\n100,1500,10000\n1100,-2000,20000\n2100,250,30000\n3100,3000,40000\n")]
    [InlineData("t [ns];x;z\n1000000;1,5;10\n2000000;-2;20\n3000000;0,25;30\n4000000;3;40\n#unit: m/s2", "m_s2")]
    [InlineData("# unit = m/s^2\n0,1.5,10\n0.001,-2,20\n0.002,0.25,30\n0.003,3,40\n")]
    [InlineData("time,x_m_s2,z_m_s2\n2024-05-01T10:00:00.000Z,1.5,10\n2024-05-01T10:00:00.001Z,-2,20\n2024-05-01T10:00:00.002Z,0.25,30\n2024-05-01T10:00:00.003Z,3,40\n")]
    [InlineData("time;x_m_s2;z_m_s2\n2024-12-31 23:59:59,998+01:00;1,5;10\n2024-12-31 23:59:59,999+01:00;-2;20\n2025-01-01 00:00:00,000+01:00;0,25;30\n2025-01-01 00:00:00,001+01:00;3;40\n")]
    [InlineData("x_m_s2,stamp,z_m_s2\n1.5,10:00:00.000,10\n-2,10:00:00.001,20\n0.25,10:00:00.002,30\n3,10:00:00.003,40\n")]
    [InlineData("t_s,x_m_s2,z_m_s2\n0,1.5e0,1E1\n1e-3,-2.,+20\n2.0E-03,.25,3e+1\n.003,3,40\n")]
    public void Every_way_of_writing_a_table_gives_the_same_rows(string text, string? unit = null)
    {
        var options = new CaptureOptions { Unit = unit is not null && AccelerationUnits.TryParse(unit, out var said) ? said : null };
        foreach (var capacity in new[] { 1, 3, 1000 })
        {
            var reading = Reading.OfText(text, options, capacity);
            Assert.Equal([Axis.X, Axis.Z], reading.Info.Axes);
            Assert.Equal([1.5, -2, 0.25, 3], reading.Values[0].Select(v => Math.Round(v, 12)));
            Assert.Equal([10.0, 20, 30, 40], reading.Values[1].Select(v => Math.Round(v, 12)));
            Assert.Equal(1000, reading.Info.RateHz!.Value, 6);
            Assert.Equal(RateOrigin.Timestamps, reading.Info.RateFrom);
            Assert.Empty(reading.Counters.Rejected);
            Assert.Equal(0, reading.Counters.Gaps);
            Assert.Equal("csv", reading.Info.Format);
        }
    }

    [Theory]
    [InlineData("utf-16")]
    [InlineData("utf-16BE")]
    public void Two_byte_text_with_its_mark_is_read(string name)
    {
        var encoding = Encoding.GetEncoding(name);
        var reading = Reading.OfBytes([.. encoding.GetPreamble(), .. encoding.GetBytes("t_s;acc_z [m/s²]\r\n0;1,5\r\n0,001;2,5\r\n0,002;3,5\r\n")]);
        Assert.Equal([1.5, 2.5, 3.5], reading.Values[0]);
    }

    [Fact]
    public void A_unit_written_in_Latin_1_is_understood()
    {
        var reading = Reading.OfBytes(Encoding.Latin1.GetBytes("t_s\tacc_z [m/s²]\n0\t1.5\n0.001\t2.5\n0.002\t3.5\n"));
        Assert.Equal((AccelerationUnit.MetresPerSecondSquared, Axis.Z), (reading.Info.Unit, reading.Info.Axes[0]));
    }

    [Fact]
    public void A_preamble_of_any_length_is_passed_over()
    {
        var text = new StringBuilder("Recorder;7\nChannels;2\nGain;1,0;2,0\n1024\n3\n");
        for (var i = 0; i < 500; i++)
        {
            text.Append($"Note {i}: checked by shift {i % 3}, nothing found\n");
        }

        text.Append("Samples;4;4\n***\nt_s;x_g;z_g\n0;1;2\n0,001;3;4\n0,002;5;6\n0,003;7;8\n");
        var reading = Reading.OfText(text.ToString());
        Assert.Equal([1, 3, 5, 7], reading.Values[0].Select(v => Math.Round(v / Reading.G, 9)));
        Assert.Equal([Axis.X, Axis.Z], reading.Info.Axes);
        Assert.Empty(reading.Info.Guesses);
    }

    [Fact]
    public void Lines_can_be_skipped_by_option()
    {
        var reading = Reading.OfText("1,2,3\n4,5,6\n7,8,9\n" + Header + "0,1,2\n0.001,3,4\n0.002,5,6\n", new() { SkipRows = 3 });
        Assert.Equal([1.0, 3, 5], reading.Values[0]);
    }

    [Fact]
    public void An_error_among_the_very_first_rows_loses_none_of_them()
    {
        var reading = Reading.OfText(Header + "0,1,2\n0.001,3,4\nSensor did not answer\n0.003,5,6\n0.004,7,8\n0.005,9,10\n");
        Assert.Equal([1.0, 3, 5, 7, 9], reading.Values[0]);
        Assert.Equal(1, reading.Counters.Rejected[RejectReasons.ErrorText]);
        Assert.Equal((1L, 1L), (reading.Counters.Gaps, reading.Counters.MissingSamples));
    }

    [Fact]
    public void A_single_row_is_a_table_too()
    {
        var reading = Reading.OfText(Header + "0,1,2\n");
        Assert.Equal([1.0], reading.Values[0]);
        Assert.Null(reading.Info.RateHz);
        Assert.Equal(RateOrigin.Supply, reading.Info.RateFrom);
    }

    [Fact]
    public void What_is_guessed_without_a_header_is_reported()
    {
        var reading = Reading.OfText("0.000,1,2,3\n0.001,4,5,6\n0.002,7,8,9\n", new() { Unit = AccelerationUnit.G });
        Assert.Equal([Axis.X, Axis.Y, Axis.Z], reading.Info.Axes);
        Assert.Equal(5, reading.Info.Guesses.Count);
        Assert.Contains(reading.Info.Guesses, g => g.StartsWith("column 1 was taken for time", StringComparison.Ordinal));
        Assert.Contains(reading.Info.Guesses, g => g.Contains("taken to be in s;", StringComparison.Ordinal));
        Assert.Contains(reading.Info.Guesses, g => g.StartsWith("column 3 was taken for y", StringComparison.Ordinal));
    }

    [Fact]
    public void A_column_that_counts_by_one_is_a_row_number_unless_it_is_called_time()
    {
        const string text = "0,1.5\n1,2.5\n2,3.5\n3,4.5\n";
        var counted = Reading.OfText(text, new() { Unit = AccelerationUnit.MetresPerSecondSquared });
        Assert.Equal([1.5, 2.5, 3.5, 4.5], counted.Values[0]);
        Assert.Null(counted.Info.RateHz);
        Assert.Contains(counted.Info.Guesses, g => g.Contains("row number", StringComparison.Ordinal));

        var timed = Reading.OfText(text, Reading.Columns("t=1,z=2") with { Unit = AccelerationUnit.MetresPerSecondSquared, TimeUnit = TimeUnit.Milliseconds });
        Assert.Equal(1000, timed.Info.RateHz!.Value, 9);
        Assert.Equal([Axis.Z], timed.Info.Axes);
    }

    [Theory]
    [InlineData("4", new[] { Axis.X }, new[] { 13.0 })]
    [InlineData("z=4", new[] { Axis.Z }, new[] { 13.0 })]
    [InlineData("2,4", new[] { Axis.X, Axis.Z }, new[] { 11.0, 13.0 })]
    [InlineData("x=4,y=3,z=2", new[] { Axis.X, Axis.Y, Axis.Z }, new[] { 13.0, 12.0, 11.0 })]
    [InlineData("z=Tray Upright", new[] { Axis.Z }, new[] { 12.0 })]
    [InlineData("z=body,t=none", new[] { Axis.Z }, new[] { 13.0 })]
    [InlineData("time=1,x=along", new[] { Axis.X }, new[] { 11.0 })]
    public void Columns_are_taken_by_number_and_by_name(string columns, Axis[] axes, double[] firsts)
    {
        const string text = "clock [s];tray along;tray upright;body upright\n0;11;12;13\n0,01;21;22;23\n0,02;31;32;33\n";
        var reading = Reading.OfText(text, Reading.Columns(columns) with { Unit = AccelerationUnit.MetresPerSecondSquared });
        Assert.Equal(axes, reading.Info.Axes);
        Assert.Equal(firsts, reading.Values.Select(v => v[0]));
        Assert.Equal(columns.Contains("none", StringComparison.Ordinal) ? null : 100, reading.Info.RateHz is { } rate ? Math.Round(rate, 9) : (double?)null);
    }

    [Fact]
    public void Counts_become_accelerations_by_the_counts_in_a_g()
    {
        var reading = Reading.OfText("t_ms,z_counts\n0,16384\n1,-8192\n2,0\n", new() { CountsPerG = 16_384 });
        Assert.Equal([Reading.G, -Reading.G / 2, 0], reading.Values[0]);
        Assert.Equal(AccelerationUnit.Counts, reading.Info.Unit);
    }

    [Fact]
    public void Samples_at_the_stated_full_scale_are_marked_clipped()
    {
        var reading = Reading.OfText("t_ms,x_g,z_g\n0,1,2\n1,8,2\n2,-7.995,2\n3,7.9,-8\n4,7.9,7.9\n", new() { FullScaleG = 8 }, capacity: 2);
        Assert.Equal([1, 2, 3], reading.Clipped);
        Assert.Equal(8 * Reading.G, reading.Info.FullScale!.Value, 9);
    }

    [Theory]
    [InlineData("# rate_hz: 4000\nx_g\n", 4000.0)]
    [InlineData("# fs = 3201.37 Hz\nx_g\n", 3201.37)]
    [InlineData("sample rate,4000\nx_g\n", 4000.0)]
    [InlineData("Sampling frequency [kHz]: 6.4\nx_g\n", 6400.0)]
    [InlineData("Delta_X\t0,000250\nx_g\n", 4000.0)]
    [InlineData("# dt = 250 us\nx_g\n", 4000.0)]
    [InlineData("# baud rate: 115200\nx_g\n", null)]
    public void Without_a_time_column_the_header_states_the_rate(string header, double? rate)
    {
        var reading = Reading.OfText(header + string.Concat(Enumerable.Range(0, 20).Select(i => $"0.{i}\n")));
        Assert.Equal(rate, reading.Info.RateHz is { } found ? Math.Round(found, 9) : null);
        Assert.Equal(rate is null ? RateOrigin.Supply : RateOrigin.Header, reading.Info.RateFrom);
        Assert.Equal(20, reading.Counters.Samples);
    }

    [Fact]
    public void The_rate_may_stand_in_a_trailer_line_only()
    {
        var reading = Reading.OfText("x_g,y_g,z_g\n" + string.Concat(Enumerable.Repeat("1,2,3\n", 2000)) + "sample rate: 6664 Hz\n");
        Assert.Equal((6664.0, RateOrigin.Header), (reading.Info.RateHz!.Value, reading.Info.RateFrom));
        Assert.Equal(2000, reading.Counters.Samples);
        Assert.Equal(0, reading.Counters.Gaps);
        Assert.Equal(1, reading.Counters.Rejected[RejectReasons.ErrorText]);
    }

    [Fact]
    public void A_file_without_any_rate_says_so_by_null()
    {
        var reading = Reading.OfText("z_g\n" + string.Concat(Enumerable.Repeat("1.0\n", 10)));
        Assert.Null(reading.Info.RateHz);
        Assert.Equal(RateOrigin.Supply, reading.Info.RateFrom);
        Assert.All(reading.Blocks, b => Assert.Equal(0, b.Start));
    }
}
