using System.Globalization;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Assessment;

public sealed class AlarmTests
{
    private static readonly StrokeBand Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90));

    private readonly List<AlarmTransition> heard = [];

    [Theory]
    [InlineData(0, 1, 1, "0101110000000101110100")]
    [InlineData(0.5, 1, 1, "0111111100000111110100")]
    [InlineData(0.5, 3, 2, "0000011111100000011110")]
    public void Delays_and_deadband_give_the_worked_activations(double deadband, int on, int off, string expected)
    {
        // Semantics: OPC UA Part 9, annex B (OnDelay, OffDelay, AlarmDeadband); the vector is worked by hand from them.
        double[] values = [9.0, 10.2, 9.9, 10.1, 10.3, 10.4, 9.8, 9.6, 9.4, 9.7, 9.3, 9.2, 9.1, 10.5, 9.9, 10.6, 10.7, 10.8, 9.4, 10.9, 9.4, 9.3];
        var alarm = new LimitAlarm(10, deadband, on, off);

        Assert.Equal(expected, string.Concat(values.Select(value => alarm.Step(value) ? '1' : '0')));
    }

    [Fact]
    public void Over_stroke_is_raised_after_two_windows_and_says_to_stop_the_feeder()
    {
        Play(new(Band, new()), (1.70, Verdict.InBand, 3), (1.95, Verdict.OverStroke, 2));

        var raised = Assert.Single(heard);
        Assert.Equal((AlarmKind.OverStroke, true), (raised.Kind, raised.Raised));
        Assert.Equal(2.5, raised.AtSeconds, 9);
        Assert.Equal(1.95e-3, raised.StrokeMetres!.Value, 9);
        Assert.Contains("Stop the feeder", raised.Words);
        Assert.Contains("1.950 mm (0.0768 in)", raised.Words);
    }

    [Theory]
    [InlineData(1.80, Verdict.High, 1.95, Verdict.OverStroke, "Stroke no longer only high but over the limit: 1.950 mm (0.0768 in).")]
    [InlineData(1.80, Verdict.High, 1.70, Verdict.InBand, "Stroke no longer high: 1.700 mm (0.0669 in).")]
    [InlineData(1.80, Verdict.High, 1.50, Verdict.Low, "Stroke no longer high but low: 1.500 mm (0.0591 in).")]
    [InlineData(1.50, Verdict.Low, 1.80, Verdict.High, "Stroke no longer low but high: 1.800 mm (0.0709 in).")]
    [InlineData(1.50, Verdict.Low, 1.95, Verdict.OverStroke, "Stroke no longer low but over the limit: 1.950 mm (0.0768 in).")]
    public void An_alarm_that_gives_way_to_another_does_not_read_as_if_all_were_well(double before, Verdict was, double after, Verdict now, string words)
    {
        Play(new(Band, new()), (before, was, 30), (after, now, 30));

        Assert.Equal(words, heard.Single(change => !change.Raised).Words);
    }

    [Fact]
    public void One_window_over_the_limit_raises_nothing()
    {
        Play(new(Band, new()), (1.70, Verdict.InBand, 3), (1.95, Verdict.OverStroke, 1), (1.70, Verdict.InBand, 9), (1.95, Verdict.OverStroke, 1));

        Assert.Empty(heard);
    }

    [Fact]
    public void An_alarm_is_cleared_with_time_and_value_after_its_off_delay()
    {
        Play(new(Band, new() { DangerOff = 1.5 }), (1.95, Verdict.OverStroke, 4), (1.70, Verdict.InBand, 4));

        Assert.Equal(2, heard.Count);
        Assert.False(heard[1].Raised);
        Assert.Equal(3.5, heard[1].AtSeconds, 9);
        Assert.Equal(1.70e-3, heard[1].StrokeMetres!.Value, 9);
    }

    [Fact]
    public void A_window_that_tells_nothing_neither_raises_nor_clears()
    {
        var book = new AlarmBook(Band, new());
        Play(book, (1.95, Verdict.OverStroke, 3));
        for (var i = 0; i < 100; i++)
        {
            book.Take(Window(10 + 0.5 * i, null) with { Quality = WindowQuality.Clipped }, Verdict.Unmeasurable, heard.Add);
        }

        Assert.Equal([AlarmKind.OverStroke, AlarmKind.SensorClipped], book.Active);
    }

    [Fact]
    public void A_stopped_feeder_clears_the_strokes_alarms()
    {
        var book = new AlarmBook(Band, new());
        Play(book, (1.50, Verdict.Low, 6));
        Assert.Equal([AlarmKind.LowStroke], book.Active);
        for (var i = 0; i < 7; i++)
        {
            book.Take(Window(10 + 0.5 * i, null) with { Motion = MotionState.Stopped }, Verdict.Stopped, heard.Add);
        }

        Assert.Empty(book.Active);
    }

    [Fact]
    public void Silence_becomes_a_lost_sensor_and_a_good_window_clears_it()
    {
        var book = new AlarmBook(Band, new());
        for (var i = 1; i <= 11; i++)
        {
            book.Silence(5 + 0.2 * i, 0.2, heard.Add);
        }

        var lost = Assert.Single(heard);
        Assert.Equal((AlarmKind.SensorLost, true), (lost.Kind, lost.Raised));
        Assert.InRange(lost.AtSeconds, 6.99, 7.21);
        book.Take(Window(9, 1.7e-3), Verdict.InBand, heard.Add);
        Assert.False(heard[^1].Raised);
    }

    [Fact]
    public void Noise_that_hides_the_stroke_for_long_is_an_alarm_and_a_start_is_not()
    {
        var book = new AlarmBook(Band, new());
        for (var i = 0; i < 9; i++)
        {
            book.Take(Window(0.5 * i, null) with { Quality = WindowQuality.Transient, Motion = MotionState.Starting }, Verdict.Unmeasurable, heard.Add);
        }

        Assert.Empty(heard);
        for (var i = 9; i < 19; i++)
        {
            book.Take(Window(0.5 * i, null) with { Quality = WindowQuality.Noisy, Motion = MotionState.Running }, Verdict.Unmeasurable, heard.Add);
        }

        Assert.Equal(AlarmKind.Unmeasurable, Assert.Single(heard).Kind);
    }

    [Fact]
    public void A_strike_in_two_windows_is_an_alarm_that_says_to_stop_the_feeder()
    {
        var book = new AlarmBook(Band, new());
        for (var i = 0; i < 2; i++)
        {
            book.Take(Window(0.5 * i, 1.7e-3) with { Strike = true, StrikeScore = 3 }, Verdict.InBand, heard.Add);
        }

        var raised = Assert.Single(heard);
        Assert.Equal(AlarmKind.Strike, raised.Kind);
        Assert.Contains("Stop the feeder", raised.Words);
    }

    [Fact]
    public void Words_are_the_same_under_a_decimal_comma()
    {
        var culture = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        culture.NumberFormat.NumberDecimalSeparator = ",";
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = culture;
            Play(new(Band, new()), (1.95, Verdict.OverStroke, 2));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        Assert.Contains("1.950 mm (0.0768 in), limit 1.900 mm (0.0748 in)", Assert.Single(heard).Words);
    }

    [Fact]
    public void An_edge_crossed_once_must_be_crossed_back_by_the_deadband()
    {
        var judge = new BandJudge(Band, Length.FromMillimetres(0.02));
        double[] strokes = [1.77, 1.79, 1.775, 1.77, 1.755, 1.64, 1.655, 1.68, 1.91, 1.89, 1.87, 1.70];
        Verdict[] expected =
        [
            Verdict.InBand, Verdict.High, Verdict.High, Verdict.High, Verdict.InBand, Verdict.Low, Verdict.Low, Verdict.InBand,
            Verdict.OverStroke, Verdict.OverStroke, Verdict.High, Verdict.InBand,
        ];

        Assert.Equal(expected, strokes.Select(stroke => judge.Next(stroke * 1e-3, 1e-6)));
    }

    private static WindowReading Window(double start, double? stroke) => new()
    {
        StartSeconds = start,
        LengthSeconds = 0.5,
        Quality = WindowQuality.Good,
        Motion = MotionState.Running,
        StrokeMetres = stroke,
        StrikeScore = stroke is null ? null : 0.1,
    };

    private void Play(AlarmBook book, params (double Millimetres, Verdict Verdict, int Windows)[] parts)
    {
        var start = 0.0;
        foreach (var (millimetres, verdict, windows) in parts)
        {
            for (var i = 0; i < windows; i++, start += 0.5)
            {
                book.Take(Window(start, millimetres * 1e-3), verdict, heard.Add);
            }
        }
    }
}
