using StrokeWatch.Benchmarks.Strikes;
using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>What is heard by the difference to the windows before, on seeded runs of the study's machine.</summary>
public sealed class StrikeMemoryTests
{
    private const int Rate = 1000;

    /// <summary>A touch in every cycle shows at 1 kHz as a few low orders, which a magnet's force may make as well: only that they came all at once tells.</summary>
    [Fact]
    public void A_strike_that_begins_is_heard_where_the_same_strike_by_itself_could_be_the_magnets_own_orders()
    {
        int begun = 0, standing = 0, windows = 0;
        for (var seed = 0; seed < 60; seed++)
        {
            var run = new StudyRun(StudyKind.Strike, 60, 1, Rate, StrikeStudy.Hash(7001, seed), new StudyWorkspace());
            var all = Counted(run, StrikeStudy.Measure(run, 60, Rate));
            var onsetLeftOut = Counted(run, StrikeStudy.Measure(run, 60, Rate, from: run.From));
            (begun, standing, windows) = (begun + all.Count(reading => reading.Strike), standing + onsetLeftOut.Count(reading => reading.Strike), windows + all.Count);
        }

        Assert.True(begun > 0.8 * windows && standing < begun - (0.05 * windows), $"of {windows} windows {begun} are called, without what was before {standing}");
    }

    [Fact]
    public void A_strike_that_ends_and_a_supply_or_load_that_changes_are_none()
    {
        foreach (var rate in new[] { 1000, 3200 })
        {
            for (var seed = 0; seed < 40; seed++)
            {
                var kind = seed % 2 == 0 ? StudyKind.Strike : StudyKind.StrikeEverySecond;
                var run = new StudyRun(kind, 60, 1, rate, StrikeStudy.Hash(7002, seed), new StudyWorkspace(), ends: true);
                Assert.DoesNotContain(Counted(run, StrikeStudy.Measure(run, 60, rate)), reading => reading.Strike);
            }
        }
    }

    [Fact]
    public void While_nothing_has_changed_the_memory_says_nothing_and_follows_slowly()
    {
        var (window, before) = (new OnsetPicture(), new OnsetPicture());
        for (var n = 0; n < 30; n++)
        {
            Take(window, [100, 1 + (0.001 * n), 0.5, -0.25], 1);
            before.Blend(window, 20);
        }

        Assert.Equal(20, before.Count);
        Assert.InRange(before.Real[2], 1.005, 1.025);
        Assert.False(new OnsetFeatures().Work(window, before, new(), Fit, Path([100, before.Real[2], 0.5, -0.25], 1), Rate));
    }

    /// <summary>A window in which the load changes is noisy through and through; a change of some four times the noise of the others, in the next one, shows all the same.</summary>
    [Fact]
    public void One_noisy_window_does_not_hide_what_changes_next()
    {
        var (window, before) = (new OnsetPicture(), new OnsetPicture());
        for (var n = 0; n < 3; n++)
        {
            Take(window, [100, 1, 0.5, -0.25], 1);
            before.Blend(window, 20);
        }

        var floor = before.Floor;
        Take(window, [100, 3, 2, 1], 1, noise: 100);
        before.Blend(window, 20);
        Assert.Equal(4, before.Count);
        Assert.InRange(before.Real[2], 1, 1.01);
        Assert.InRange(before.Floor / before.Count, floor / 3, 0.45 * floor);

        double[] changed = [100, 1 + Math.Sqrt(20 * floor), 0.5, -0.25];
        Take(window, changed, 1);
        Assert.True(new OnsetFeatures().Work(window, before, new(), Fit, Path(changed, 1), Rate));

        // What is not called is what the machine now is: it has changed in the noisy window.
        before.Blend(window, 20);
        Assert.InRange(before.Real[2], changed[1] - (0.05 * (changed[1] - 1)), changed[1]);
    }

    /// <summary>Windows that weigh alike make a plain mean, and what is noisier for good becomes what the machine now is.</summary>
    [Fact]
    public void Windows_weigh_by_their_noise_and_what_stays_noisier_takes_over()
    {
        var (window, before) = (new OnsetPicture(), new OnsetPicture());
        foreach (var (second, noise) in new[] { (1.0, 1.0), (2, 1), (6, 2) })
        {
            Take(window, [100, second, 0.5, -0.25], 1, noise);
            before.Blend(window, 20);
        }

        // Weights 1, 1 and a quarter.
        Assert.Equal(4.5 / 2.25, before.Real[2], 12);
        Take(window, [100, 1, 0.5, -0.25], 1);
        Assert.Equal(3 * window.Floor / 2.25, before.Floor, 15);

        for (var n = 0; n < 90; n++)
        {
            Take(window, [100, 9, 0.5, -0.25], 1, noise: 1000);
            before.Blend(window, 20);
        }

        Assert.InRange(before.Real[2], 6, 9);
    }

    /// <summary>The turn is worked out once a window, and is the same about both ends.</summary>
    [Fact]
    public void The_turn_is_that_of_the_window_about_either_end()
    {
        var (window, before, features) = (new OnsetPicture(), new OnsetPicture(), new OnsetFeatures());
        Take(window, [100, 1, 0.5, -0.25], 1);
        before.Blend(window, 20);
        var numbers = new double[OnsetFeatures.Count];
        var known = new double[OnsetFeatures.Count];
        var angles = new HashSet<double>();
        foreach (var second in new[] { 3.0, 6, 20 })
        {
            double[] orders = [100, second, 2, 1];
            Take(window, orders, 1);
            Assert.True(features.Work(window, before, new(), Fit, Path(orders, 1), Rate));
            foreach (var sign in new[] { -1, 1 })
            {
                features.Side(sign, numbers);
                numbers.CopyTo(known, 0);
                OnsetFeatures.FillTurn(new(), known, Rate);
                OnsetFeatures.FillChange(new(), features.Changed, foretold: false, sign, known);
                Assert.Equal(known, numbers);
            }

            angles.Add(numbers[OnsetFeatures.WithoutTurn + OnsetTurn.Count - 10]);
        }

        Assert.Equal(3, angles.Count);
    }

    [Fact]
    public void A_line_that_is_told_the_other_way_round_is_no_change_and_another_line_begins_anew()
    {
        var (window, before, turned) = (new OnsetPicture(), new OnsetPicture(), new OnsetPicture());
        Take(window, [100, 1, 0.5, -0.25], 1);
        before.Blend(window, 20);
        Take(turned, [100, 1, 0.5, -0.25], -1);
        Assert.True(before.Fits(turned));
        for (var k = 1; k <= 4; k++)
        {
            Assert.Equal(turned.Real[k], before.Real[k], 12);
            Assert.Equal(turned.Imaginary[k], before.Imaginary[k], 12);
        }

        var other = new OnsetPicture();
        other.Take(Fit, new(new double[] { 0, 100, 1, 0.5, -0.25 }, new double[5], new double[] { 1, 0, 0 }), Rate, new(), 0);
        Assert.False(before.Fits(other));
        before.Clear();
        Assert.False(before.Fits(turned));
    }

    /// <summary>What was called stays so while windows nearly call it (seven tenths of the threshold), fading by 3 % a window: what barely called is not carried on.</summary>
    [Fact]
    public void What_was_called_stays_called_while_windows_nearly_call_it()
    {
        AssertTold([(1.36, false), (0.75, true), (0.72, true), (0.98, true), (1.2, false)], [1.36, 1.3192, 1.2796, 1.2412, 1.204]);
        AssertTold([(1.01, false), (0.9, null), (0.95, null)], [1.01, 0.9, 0.95]);
        AssertTold([(1.5, false), (0.4, null), (0.7, null)], [1.5, 0.4, 0.7]);
        AssertTold([(1.5, false), (0, null), (0.9, null), (-0.1, null)], [1.5, 0, 0.9, -0.1]);
    }

    /// <summary>Half a minute without a window, and nothing is left of a score of 1.5.</summary>
    [Fact]
    public void What_was_called_long_ago_is_not_carried_on()
    {
        var memory = new StrikeMemory();
        Assert.True(Compared(memory, 1.5, 0).Strike);
        Assert.Equal(0.9, Compared(memory, 0.9, 30).StrikeScore!.Value, 12);
    }

    [Fact]
    public void What_was_called_of_one_mounting_is_not_carried_on_to_another()
    {
        var memory = new StrikeMemory();
        Assert.False(Compared(memory, 0, 0).Strike);
        Assert.True(Compared(memory, 1.5, 0.5).Strike);
        Assert.True(Compared(memory, 0.9, 1).StrikeCarried);
        Assert.False(Compared(memory, 0.9, 1.5, new(new double[] { 0, 100, 1, 0.5, -0.25 }, new double[5], new double[] { 1, 0, 0 })).Strike);
    }

    /// <summary>
    /// While nothing is remembered the window by itself has all of the false-alarm probability, 2.5 in 100,000; from then on a tenth where what has changed can be weighed, which has the rest, and all of it where
    /// nothing can.
    /// </summary>
    [Fact]
    public void A_window_by_itself_must_say_more_once_there_is_something_to_compare_with()
    {
        double[] orders = [100, 1, 0.5, -0.25];
        var memory = new StrikeMemory();
        Assert.True(Compared(memory, 1.1, 0, Path(orders, 1), axes: 2).Strike);

        var scaled = Math.Log(2.5e-5) / Math.Log(2.5e-6);
        foreach (var weighed in new[] { true, false })
        {
            memory = new StrikeMemory();
            Assert.False(Compared(memory, 0, 0, Path(orders, 1), axes: 2).Strike);

            // The second order's sign turns: more than noise makes of it, and nothing that a strike does.
            var next = weighed ? Path([100, -1, 0.5, -0.25], 1) : Path(orders, 1);
            var later = Compared(memory, 1.1, 0.5, next, axes: 2);
            Assert.Equal(weighed ? 1.1 * scaled : 1.1, later.StrikeScore!.Value, 9);
            Assert.True(later.Strike == !weighed && later.StrikePossible == weighed);
            Assert.True(Compared(memory, 1.3, 1, next, axes: 2).Strike);
        }

        // What does not call takes no part of it.
        memory = new StrikeMemory();
        Assert.False(Compared(memory, 0, 0, Path(orders, 1), axes: 2).Strike);
        Assert.Equal(0.99 * scaled, Compared(memory, 0.99, 0.5, Path(orders, 1), axes: 2).StrikeScore!.Value, 9);
    }

    /// <summary>A machine that sounds like a strike from the first window on is remembered all the same; its windows by themselves have a tenth of the false-alarm probability then, and a strike stays possible.</summary>
    [Fact]
    public void What_is_suspected_from_the_first_window_on_is_remembered_and_weighs_less_by_itself()
    {
        var scaled = Math.Log(2.5e-5) / Math.Log(2.5e-6);
        var memory = new StrikeMemory();
        foreach (var (score, start) in new[] { (0.6, 0.0), (0.9, 0.5), (0.55, 1), (1.05, 1.5) })
        {
            var told = Compared(memory, score, start, Path([100, 1, 0.5, -0.25], 1), axes: 2);
            Assert.Equal(start == 0 ? score : scaled * score, told.StrikeScore!.Value, 12);
            Assert.True(told is { Strike: false, StrikePossible: true });
        }

        Assert.True(Compared(memory, 1.25, 2, Path([100, 1, 0.5, -0.25], 1), axes: 2).Strike);
        Assert.False(Compared(memory, 0.3, 2.5, Path([100, 1, 0.5, -0.25], 1), axes: 2).Strike);

        // Now it is a machine like any other.
        Assert.Equal(1.05, Compared(memory, 1.05, 3, Path([100, 1, 0.5, -0.25], 1), axes: 2).StrikeScore!.Value, 9);
    }

    /// <summary>Machines of which the healthy sound alone is suspected (half of the threshold and more), with a late firing angle: contact that begins there is heard by what has changed.</summary>
    [Fact]
    public void A_strike_that_begins_on_a_machine_suspected_before_is_heard()
    {
        int suspected = 0, before = 0, called = 0, windows = 0;
        foreach (var (supply, strokes, number) in new[] { (60, 1, 221), (60, 1, 1008), (60, 1, 1207), (60, 2, 119), (60, 2, 380) })
        {
            var run = new StudyRun(StudyKind.StrikeContact, supply, strokes, Rate, StrikeStudy.Hash(20, (int)StudyKind.StrikeContact, Rate, supply * strokes, number), new StudyWorkspace());
            var all = StrikeStudy.Measure(run, supply * strokes, Rate);
            var healthy = all.Where(reading => reading.StartSeconds + reading.LengthSeconds < run.From).ToList();
            var struck = Counted(run, all);

            // From the second window on a score of a half is told as 0.41: a tenth of the false-alarm probability.
            (before, suspected) = (before + healthy.Count, suspected + healthy.Count(reading => reading is { Strike: false, StrikePossible: true, StrikeScore: > 0.41 }));
            (windows, called) = (windows + struck.Count, called + struck.Count(reading => reading.Strike));
        }

        Assert.True(before >= 10 && suspected > 0.8 * before && windows >= 10 && called >= 0.9 * windows, $"suspected {suspected} of {before} windows without strike, called {called} of {windows} with it");
    }

    private static void AssertTold((double Alone, bool? Carried)[] windows, double[] scores)
    {
        var memory = new StrikeMemory();
        for (var n = 0; n < windows.Length; n++)
        {
            var told = Compared(memory, windows[n].Alone, 0.5 * n);
            Assert.Equal(scores[n], told.StrikeScore!.Value, 4);
            Assert.Equal(windows[n].Carried is not null, told.Strike);
            Assert.Equal(windows[n].Carried is true, told.StrikeCarried);
            Assert.Equal(!told.Strike && told.StrikeScore >= 0.5, told.StrikePossible);
        }
    }

    private static WindowReading Compared(StrikeMemory memory, double score, double start) => Compared(memory, score, start, Path([100, 1, 0.5, -0.25], 1));

    private static WindowReading Compared(StrikeMemory memory, double score, double start, LineHarmonics path, int axes = 1) => memory.Compare(
        new() { StartSeconds = start, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running, StrikeScore = score },
        Kept(axes),
        path,
        Rate,
        new());

    private static IReadOnlyList<WindowReading> Counted(StudyRun run, IEnumerable<WindowReading> readings) =>
        [.. readings.Where(reading => run.Counts(reading.StartSeconds, reading.StartSeconds + reading.LengthSeconds))];

    private static IWindowHarmonics Fit => Kept(1);

    private static KeptHarmonics Kept(int axes, double noise = 1)
    {
        var kept = new KeptHarmonics();
        kept.Keep(new Steady(axes, noise));
        return kept;
    }

    private static void Take(OnsetPicture picture, double[] orders, int sign, double noise = 1) => picture.Take(Kept(1, noise), Path(orders, sign), Rate, new(), 0);

    /// <summary>Orders as cosines about a moment of the cycle, told along a line or the other way.</summary>
    private static LineHarmonics Path(double[] orders, int sign)
    {
        var (cosine, sine) = (new double[orders.Length + 1], new double[orders.Length + 1]);
        for (var k = 1; k <= orders.Length; k++)
        {
            (cosine[k], sine[k]) = (sign * orders[k - 1] * Math.Cos(0.7 * k), sign * orders[k - 1] * Math.Sin(0.7 * k));
        }

        return new(cosine, sine, new double[] { 0, 0, sign });
    }

    private sealed class Steady(int axes, double noise) : IWindowHarmonics
    {
        public int Axes => axes;

        public int Orders => 4;

        public double Frequency => 0.06;

        public double MeasuredFrequency => 0.06;

        public int Count => 500;

        public double SquaredResiduals => 5 * noise * noise;

        public double ResidualDeviation => 0.1 * noise;

        public double CoefficientShare => 2.0 / 500;

        public ReadOnlySpan<double> Cosine(int axis) => new double[5];

        public ReadOnlySpan<double> Sine(int axis) => new double[5];

        public (double Cosine, double Sine) Part(int axis, int part) => default;
    }
}
