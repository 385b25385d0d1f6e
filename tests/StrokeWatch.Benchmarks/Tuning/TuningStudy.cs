using System.Globalization;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Benchmarks.Tuning;

/// <summary>Tunes simulated feeders that the fit has not seen, by advice and by the rule of thumb, and counts spring changes, over-strokes, sides and ranges.</summary>
internal static class TuningStudy
{
    /// <summary>Runs with: number of feeders, first seed.</summary>
    public static int Run(string[] arguments)
    {
        var count = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 1000;
        var seed = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 1;
        return Tell(Tune(count, seed));
    }

    /// <summary>Tunes feeders; the first half of the odd ones is told no natural frequency unless it is asked for.</summary>
    public static IReadOnlyList<TunedFeeder> Tune(int count, int seed)
    {
        var tuned = new TunedFeeder[count];
        Parallel.For(0, count, i =>
        {
            var feeder = StudyFeeder.Draw(HashCode(seed, i));
            var told = i % 2 == 0;
            tuned[i] = new(feeder.SomeFit(TuningSession.Scatter), feeder.SomeFit(0), feeder.Normal(feeder.Found, 0), told, TuningSession.ByAdvice(feeder, HashCode(seed, i) ^ 0x5A5A, told), TuningSession.ByThumb(feeder, HashCode(seed, i) ^ 0x3C3C));
        });
        return tuned;
    }

    private static int HashCode(int seed, int index) => unchecked((seed * 1_000_003) + (index * 7919)) & int.MaxValue;

    private static int Tell(IReadOnlyList<TunedFeeder> all)
    {
        var fit = all.Where(feeder => feeder.SomeFit).ToList();
        Line($"{all.Count} feeders, {all.Count(feeder => !feeder.Normal)} found on the reverse side; on {fit.Count} some stack of the stock lands in the band however it is clamped (one standard deviation either way): only they count for changes and over-stroke");
        Line($"{"",-34}{"advice",10}{"one leaf a time",18}");
        Row("median spring changes to the band", Median(fit, feeder => feeder.Advice), Median(fit, feeder => feeder.Thumb));
        foreach (var most in (int[])[1, 2, 3, 4, 8])
        {
            Row($"in the band within {most}, %", Share(fit, feeder => Within(feeder.Advice, most)), Share(fit, feeder => Within(feeder.Thumb, most)));
        }

        Row("over-stroke while tuning, %", Share(fit, feeder => feeder.Advice.OverStroke), Share(fit, feeder => feeder.Thumb.OverStroke));
        Row("  of those found on normal side, %", Share([.. fit.Where(f => f.Normal)], feeder => feeder.Advice.OverStroke), Share([.. fit.Where(f => f.Normal)], feeder => feeder.Thumb.OverStroke));
        foreach (var (name, part) in new[] { ("with coast-downs", fit.Where(f => f.Told).ToList()), ("without, unless asked", fit.Where(f => !f.Told).ToList()), ("found on the reverse side", fit.Where(f => !f.Normal).ToList()) })
        {
            Line($"{name}: {part.Count} feeders, within 3 {Share(part, f => Within(f.Advice, 3)):0.0} % against {Share(part, f => Within(f.Thumb, 3)):0.0} %, over-stroke {Share(part, f => f.Advice.OverStroke):0.0} % against {Share(part, f => f.Thumb.OverStroke):0.0} %");
        }

        var barely = all.Where(f => f.BarelyFits).ToList();
        Line($"on {barely.Count} some stack lands in the band as clamped on average: within 3 {Share(barely, f => Within(f.Advice, 3)):0.0} %, over-stroke {Share(barely, f => f.Advice.OverStroke):0.0} %");
        var failed = fit.Where(f => !f.Advice.Reached).ToList();
        Line($"not reached by advice: {failed.Count}, ended with {string.Join(", ", failed.GroupBy(f => f.Advice.LastAction).Select(g => $"{g.Key} {g.Count()}"))}; one trial without a coast-down asked for one in {all.Count(f => f.Advice.AskedFirst)} of {all.Count(f => !f.Told)}");
        var hopeless = all.Where(f => !f.BarelyFits).ToList();
        Line($"of {hopeless.Count} feeders that no stack fits, {hopeless.Count(f => f.Advice.LastAction == TuningAction.NoStackFits)} ended with that answer, {hopeless.Count(f => f.Advice.Reached)} in the band by their clamping or by mistake");
        var ranges = all.Select(f => f.Advice.Ranges).Aggregate((0, 0, 0), (sum, r) => (sum.Item1 + r.Within, sum.Item2 + r.Below, sum.Item3 + r.Above));
        var readings = ranges.Item1 + ranges.Item2 + ranges.Item3;
        Line($"ranges: {readings} readings, {100.0 * ranges.Item2 / readings:0.0} % below, {100.0 * ranges.Item3 / readings:0.0} % above");
        var sides = all.Where(f => f.Advice.SideSaid is not null).ToList();
        Line($"sides: {sides.Count} coast-downs, {sides.Count(f => f.Advice.SideSaid == CurveSide.Unknown)} left open, {sides.Count(f => f.Advice.SideSaid != CurveSide.Unknown && !f.Advice.SideRight)} wrong");
        var targets = new Targets();
        targets.Below("median spring changes", Median(fit, f => f.Advice), 2.001, "changes");
        targets.AtLeast("in the band within 3", Share(fit, f => Within(f.Advice, 3)), 95, "%");
        targets.Below("over-stroke while tuning", Share(fit, f => f.Advice.OverStroke), 1.0001, "%");
        targets.AtLeast("side right with a coast-down", Share(sides, f => f.Advice.SideRight), 99, "%");
        targets.AtLeast("95 % ranges cover", 100.0 * ranges.Item1 / readings, 92, "%");
        targets.Below("95 % ranges cover", 100.0 * ranges.Item1 / readings, 98.0001, "%");
        return targets.Status;
    }

    private static bool Within(TuningSession session, int most) => session.Reached && session.Changes <= most;

    private static double Median(IReadOnlyList<TunedFeeder> feeders, Func<TunedFeeder, TuningSession> by)
    {
        var changes = feeders.Select(by).Select(session => session.Reached ? session.Changes : double.PositiveInfinity).Order().ToList();
        return changes[changes.Count / 2];
    }

    private static double Share(IReadOnlyList<TunedFeeder> feeders, Func<TunedFeeder, bool> holds) => 100.0 * feeders.Count(holds) / Math.Max(1, feeders.Count);

    private static void Row(string name, double advice, double thumb) => Line($"{name,-34}{advice,10:0.#}{thumb,18:0.#}");

    private static void Line(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));
}
