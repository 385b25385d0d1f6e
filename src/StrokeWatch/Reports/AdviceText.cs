using System.Globalization;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports;

/// <summary>Writes advice for the person at the machine, the same under every culture.</summary>
internal static class AdviceText
{
    /// <summary>Writes it.</summary>
    public static void Write(TextWriter writer, TuningAdvice advice, TuningPosterior posterior)
    {
        var (feeder, choice) = (posterior.Model.Feeder, advice.Choice);
        void Line(FormattableString text) => writer.WriteLine(text.ToString(CultureInfo.InvariantCulture));

        Line($"{feeder.Name}, {posterior.Trials.Count} trial{(posterior.Trials.Count == 1 ? "" : "s")}");
        var over = posterior.Trials[^1].FullVoltageStroke(feeder) > feeder.Band.Limit.Metres;
        foreach (var stop in advice.Warnings.Take(over ? 1 : 0))
        {
            Line($"  STOP       {stop}");
        }

        foreach (var because in advice.Because)
        {
            Line($"  because    {because}");
        }

        Line($"  DO         {Action(advice, posterior)}");
        if (advice.Action is TuningAction.ChangeRearStack or TuningAction.AddStiffnessOrLightenTray or TuningAction.NoStackFits)
        {
            var changing = advice.Action != TuningAction.NoStackFits;
            if (changing)
            {
                Line($"  leaves     {Steps(advice)}");
            }

            Line($"  expected   {Length.FromMetres(choice.Stroke)}, in 95 cases of 100 from {Length.FromMetres(choice.Low)} to {Length.FromMetres(choice.High)}");
            Line($"  chances    in the band {100 * choice.InBand:0} %, over the limit {(choice.OverLimit < 0.001 ? "below 0.1" : string.Create(CultureInfo.InvariantCulture, $"{100 * choice.OverLimit:0.0}"))} %");
            Line($"  then       natural frequency {choice.NaturalHz:0.0} Hz, {choice.TuningRatio:0.000} times the drive's: {Side(TuningNames.After(choice))}; {AdviceLoad(choice)}");
            var margin = feeder.Springs!.EnduranceStress is { } endurance ? string.Create(CultureInfo.InvariantCulture, $"; the leaves endure {endurance / 1e6:0} MPa, {endurance / choice.StressHigh:0.00} times that") : "; the feeder file gives no endurance_stress_mpa to hold it against";
            Line($"  stress     {choice.Stress / 1e6:0} MPa in the thickest rear leaf, at most {choice.StressHigh / 1e6:0} MPa within the range{margin}");
        }

        foreach (var other in advice.Action is TuningAction.None or TuningAction.MeasureFirst ? [] : advice.Alternatives.Take(3))
        {
            Line($"  or else    {Stacks.Words(other.Rear)}: {Length.FromMetres(other.Stroke)}, in the band {100 * other.InBand:0} %");
        }

        foreach (var warning in advice.Warnings.Skip(over ? 1 : 0))
        {
            Line($"  mind       {warning}");
        }

        if (advice.Action != TuningAction.None)
        {
            foreach (var caution in TuningNames.Cautions)
            {
                Line($"  caution    {caution}");
            }
        }
    }

    private static string Action(TuningAdvice advice, TuningPosterior posterior) => advice.Action switch
    {
        TuningAction.None => $"nothing: the measured stroke lies in its band; leave {Stacks.Words(advice.Installed)} in the rear",
        TuningAction.ChangeRearStack => $"put {Stacks.Words(advice.Choice.Rear)} into the rear, and measure again",
        TuningAction.AddStiffnessOrLightenTray => Stacks.Same(advice.Choice.Rear, advice.Installed)
            ? "take weight off the tray, or get stiffer leaves: no stack at hand brings the feeder back to the normal side safely"
            : $"first bring the feeder back to the normal side: put {Stacks.Words(advice.Choice.Rear)} into the rear (or take weight off the tray), and measure again",
        TuningAction.MeasureFirst => posterior.HasNatural
            ? "measure first: what is missing stands below"
            : "measure first: the natural frequency, from a stop of the empty feeder; change no leaf yet",
        _ => $"do not change leaves: none of {advice.Examined.ToString(CultureInfo.InvariantCulture)} stacks fits; the nearest would be {Stacks.Words(advice.Choice.Rear)}. Other thicknesses, another tray weight or the magnet's force (gap, voltage) must be looked at",
    };

    /// <summary>Says which leaves come out and which go in.</summary>
    private static string Steps(TuningAdvice advice)
    {
        var (from, to) = (advice.Installed, advice.Choice.Rear);
        var thicknesses = Stacks.Tidy(from.Concat(to)).Select(layer => layer.ThicknessMetres).ToList();
        string Part(bool outwards) => string.Join(", ", thicknesses
            .Select(thickness => (thickness, Count: (Stacks.Count(from, thickness) - Stacks.Count(to, thickness)) * (outwards ? 1 : -1)))
            .Where(part => part.Count > 0).Select(part => Stacks.Words([new(part.thickness, part.Count)])));
        var (taken, put) = (Part(true), Part(false));
        return taken.Length == 0 ? $"put in {put}" : put.Length == 0 ? $"take out {taken}" : $"take out {taken}; put in {put}";
    }

    private static string AdviceLoad(StackPrediction stack) => string.Create(
        CultureInfo.InvariantCulture, $"1 % of the tray's weight in load {(stack.ChangePerPercentTray >= 0 ? "raises" : "lowers")} the stroke by about {100 * Math.Abs(Math.Exp(stack.ChangePerPercentTray) - 1):0.0} %");

    private static string Side(CurveSide side) => side switch
    {
        CurveSide.Normal => "normal side",
        CurveSide.Reverse => "reverse side",
        _ => "side not certain",
    };
}
