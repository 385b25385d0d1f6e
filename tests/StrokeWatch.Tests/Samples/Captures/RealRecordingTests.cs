using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Samples.Captures;

/// <summary>Open recordings of other people, read from the folder beside the repository; what is right stands in its README.</summary>
public sealed class RealRecordingTests
{
    [SkippableFact]
    public void A_stale_header_rate_does_not_beat_the_time_column_and_the_tones_are_right()
    {
        var reading = Read("beam-shaker-100-120-150/data_set_1_downsampled_by_64.lvm", Reading.Columns("z=Acceleratio"));
        Assert.Equal(800, reading.Info.RateHz!.Value, 6);
        Assert.Equal(RateOrigin.Timestamps, reading.Info.RateFrom);
        Assert.Equal(51_200, reading.Summary.HeaderRateHz!.Value, 3);
        Assert.Contains(reading.Info.Guesses, g => g.Contains("51200 Hz", StringComparison.Ordinal));
        Assert.Equal(AccelerationUnit.G, reading.Info.Unit);
        Assert.Equal([Axis.Z], reading.Info.Axes);
        Assert.Equal(15_761, reading.Counters.Samples);
        Assert.Empty(reading.Counters.Rejected);
        foreach (var (frequency, peak) in new[] { (150.0, 0.0843), (120.0, 0.0509), (100.0, 0.0434) })
        {
            Assert.Equal(peak, SineFit.Amplitude(reading.Values[0].AsSpan(0, 15_760), frequency, 800) / Reading.G, 3e-4);
        }
    }

    [SkippableFact]
    public void The_acceleration_column_of_that_file_is_found_by_its_unit_and_reported_as_a_guess()
    {
        var reading = Read("beam-shaker-100-120-150/data_set_1_downsampled_by_64.lvm", new());
        Assert.Equal(-0.016694 * Reading.G, reading.Values[0][0], 9);
        Assert.Contains(reading.Info.Guesses, g => g.StartsWith("column 4 was taken for x", StringComparison.Ordinal));
    }

    [SkippableFact]
    public void Microseconds_without_a_header_give_400_02_Hz()
    {
        var reading = Read("shaker-us-400hz/001.csv", new() { Unit = AccelerationUnit.G });
        Assert.Equal(400.02, reading.Info.RateHz!.Value, 0.005);
        Assert.Equal(RateOrigin.Timestamps, reading.Info.RateFrom);
        Assert.Equal(4000, reading.Counters.Samples);
        Assert.Equal(0, reading.Counters.Gaps);
        Assert.Equal(0, reading.Values[0][0]);
        Assert.Equal(0.9892593 * Reading.G, reading.Values[0][1], 12);
        Assert.Contains(reading.Info.Guesses, g => g.Contains("time column was taken to be in us", StringComparison.Ordinal));
        Assert.InRange(reading.Summary.Timestamps!.JitterRmsSeconds, 1e-7, 1e-6);
    }

    [SkippableFact]
    public void Without_a_unit_that_file_asks_for_it()
    {
        var fault = Assert.Throws<CaptureException>(() => Read("shaker-us-400hz/001.csv", new()));
        Assert.Contains("--unit", fault.Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void A_comment_header_over_spaces_names_the_columns_of_a_shock()
    {
        var reading = Read("pcb-shock-50k/acc_pcb_a14.txt", new());
        Assert.Equal(50_000, reading.Info.RateHz!.Value, 3);
        Assert.Equal(AccelerationUnit.G, reading.Info.Unit);
        Assert.Equal(5500, reading.Counters.Samples);
        var peak = reading.Values[0].Select(Math.Abs).Max();
        Assert.Equal(546.6, peak / Reading.G, 0.05);
        Assert.Equal(0.01000, Array.FindIndex(reading.Values[0], v => Math.Abs(v) == peak) / 50_000.0, 5e-6);
    }

    [SkippableFact]
    public void Empty_time_cells_leave_the_rate_to_the_header_step()
    {
        var reading = Read("lvm-multichannel/long_single_header_multi_ch.lvm", Reading.Columns("x=3,z=4"));
        Assert.Equal(1 / 0.000977, reading.Info.RateHz!.Value, 6);
        Assert.Equal(RateOrigin.Header, reading.Info.RateFrom);
        Assert.Contains(reading.Info.Guesses, g => g.Contains("--rate-hz", StringComparison.Ordinal));
        Assert.Equal(AccelerationUnit.MetresPerSecondSquared, reading.Info.Unit);
        Assert.Equal([Axis.X, Axis.Z], reading.Info.Axes);
        Assert.Equal(16_384, reading.Counters.Samples);
        Assert.Equal((0.234571, 0.244440), (reading.Values[0][0], reading.Values[1][0]));
        Assert.Equal((0.240283, 0.243440), (reading.Values[0][^3], reading.Values[1][^3]));
    }

    [SkippableFact]
    public void The_user_may_say_the_true_rate_of_that_file()
    {
        var reading = Read("lvm-multichannel/long_single_header_multi_ch.lvm", Reading.Columns("z=m_2") with { RateHz = 1024 });
        Assert.Equal((1024.0, RateOrigin.Option), (reading.Info.RateHz!.Value, reading.Info.RateFrom));
    }

    [SkippableFact]
    public void Two_header_rows_and_seven_names_over_six_columns_are_read_in_thousands_of_g()
    {
        var reading = Read("drop-tower-1M/accel_1.csv", Reading.Columns("x=2,y=3,z=4") with { Unit = AccelerationUnit.KiloG });
        Assert.Equal(1e6, reading.Info.RateHz!.Value, 1e-3);
        Assert.Equal(RateOrigin.Timestamps, reading.Info.RateFrom);
        Assert.Equal(5000, reading.Counters.Samples);
        Assert.Equal(1.122961563480000084e-02 * 1e3 * Reading.G, reading.Values[0][0], 12);
        Assert.Contains(reading.Info.Guesses, g => g.Contains("7 names over 6 columns", StringComparison.Ordinal));
    }

    [SkippableFact]
    public void Without_a_choice_that_file_lists_its_columns()
    {
        var fault = Assert.Throws<CaptureException>(() => Read("drop-tower-1M/accel_1.csv", new()));
        Assert.Contains("--columns", fault.Message, StringComparison.Ordinal);
        Assert.Contains("'accel 1'", fault.Message, StringComparison.Ordinal);
    }

    private static Reading Read(string name, CaptureOptions options)
    {
        var folder = SharedFolder.Find("real");
        Skip.If(folder is null, "the folder of real recordings is not beside the repository");
        return Reading.OfFile(Path.Combine(folder, name), options);
    }
}
