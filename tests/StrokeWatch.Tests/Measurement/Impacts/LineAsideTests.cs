using StrokeWatch.Benchmarks.Strikes;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>A range that is not stated and cuts one axis has a strike's orders, but on that axis alone.</summary>
public sealed class LineAsideTests
{
    private const int Rate = 3200;

    /// <summary>The two machines of <c>strike-study 20000 11</c>, of 2,000 with a sensor that clips, of which windows were taken for strikes.</summary>
    [Theory]
    [InlineData(60, 1, 117)]
    [InlineData(50, 2, 45)]
    public void A_cut_axis_is_no_strike_where_the_others_show_none(int supply, int strokes, int number)
    {
        var run = new StudyRun(StudyKind.Clipped, supply, strokes, Rate, StrikeStudy.Hash(11, (int)StudyKind.Clipped, Rate, supply * strokes, number), new StudyWorkspace());
        Assert.Null(run.FullScale);
        var readings = StrikeStudy.Measure(run, supply * strokes, Rate);
        Assert.DoesNotContain(readings, reading => reading.Strike);
        Assert.True(readings.Count(reading => reading is { StrikePossible: true, StrikeScore: > 0 and < 0.5 }) >= 5, "nothing is said to be possible");
    }

    /// <summary>Where the range is stated nothing is asked of the other axes; where it is not, strikes are called as well as there.</summary>
    [Theory]
    [InlineData((int)StudyKind.Strike)]
    [InlineData((int)StudyKind.StrikeContact)]
    [InlineData((int)StudyKind.FaintEverySecond)]
    public void A_strike_is_heard_on_the_other_axes_too(int kind)
    {
        int stated = 0, unstated = 0;
        for (var seed = 0; seed < 25; seed++)
        {
            var run = new StudyRun((StudyKind)kind, 60, 1, Rate, StrikeStudy.Hash(7101, seed), new StudyWorkspace());
            var with = StrikeStudy.Measure(run, 60, Rate);
            run.FullScale = null;
            foreach (var (known, open) in with.Zip(StrikeStudy.Measure(run, 60, Rate)))
            {
                // What counts as cut without the range is not listened to at all.
                if (open.StrikeScore is not null && run.Counts(open.StartSeconds, open.StartSeconds + open.LengthSeconds))
                {
                    (stated, unstated) = (stated + (known.Strike ? 1 : 0), unstated + (open.Strike ? 1 : 0));
                }
            }
        }

        Assert.True(stated > 35 && unstated >= stated - 1, $"with the range stated {stated} windows are called, without it {unstated}");
    }

    /// <summary>A sensor with one axis along the line of action feels next to nothing on the others: they are not asked.</summary>
    [Fact]
    public void Axes_across_the_line_are_not_asked()
    {
        var calls = 0;
        for (var seed = 0; seed < 12; seed++)
        {
            var run = new StudyRun(StudyKind.Faint, 60, 1, Rate, StrikeStudy.Hash(7102, seed), new StudyWorkspace());
            var (cos, sin, x, z) = (run.Machine.LineCos, run.Machine.LineSin, run.Axes[0], run.Axes[2]);
            for (var i = 0; i < x.Length; i++)
            {
                (x[i], z[i]) = ((cos * x[i]) + (sin * z[i]), (cos * z[i]) - (sin * x[i]));
            }

            var with = StrikeStudy.Measure(run, 60, Rate);
            run.FullScale = null;
            foreach (var (known, open) in with.Zip(StrikeStudy.Measure(run, 60, Rate)).Where(pair => pair.Second.StrikeScore is not null))
            {
                Assert.Equal(known.StrikeScore, open.StrikeScore);
                calls += open.Strike ? 1 : 0;
            }
        }

        Assert.True(calls > 20, $"{calls} windows called");
    }

    /// <summary>Listened to later and on another thread, a window gives the same.</summary>
    [Fact]
    public void A_window_that_is_kept_keeps_its_other_axes()
    {
        var run = new StudyRun(StudyKind.Clipped, 60, 1, Rate, StrikeStudy.Hash(11, (int)StudyKind.Clipped, Rate, 60, 117), new StudyWorkspace());
        var block = new SampleBlock(3, run.Axes[0].Length) { RateHz = Rate };
        for (var axis = 0; axis < 3; axis++)
        {
            run.Axes[axis].CopyTo(block.Fill(axis));
        }

        block.SetCount(run.Axes[0].Length);
        var later = new Later();
        new StrokeMeter(new() { Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = Rate, NominalHz = 60, StillBelowMetres = 0.01e-3, ListenLater = later }).Add(block, later);
        run.FullScale = null;
        Assert.Equal(StrikeStudy.Measure(run, 60, Rate, from: 0).Select(reading => reading.StrikeScore), later.Scores);
        Assert.Contains(later.Scores, score => score > 0);
    }

    private sealed class Later : IListenLater, IWindowSink
    {
        private readonly WindowEar ear = new();
        private readonly KeptLine kept = new();

        public List<double?> Scores { get; } = [];

        public KeptLine Next() => kept;

        public void Window(in WindowReading reading) => Scores.Add((reading.Unheard is null ? reading : kept.Compare(ear.Listen(reading, kept))).StrikeScore);

        public void Decay(in DecayReading reading)
        {
        }
    }
}
