using System.Globalization;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Machine.Tuning;

/// <summary>Puts advice into a practitioner's words, the same under every culture.</summary>
internal static class AdviceWords
{
    private const double Surprise = 12, Some = 0.05;

    /// <summary>Gives the reasons.</summary>
    public static IReadOnlyList<string> Because(TuningAdvice advice, TuningPosterior posterior)
    {
        var (last, band) = (posterior.Trials[^1], posterior.Model.Feeder.Band);
        var because = new List<string>();
        void Say(FormattableString text) => because.Add(text.ToString(CultureInfo.InvariantCulture));

        if (last.StrokeMetres is { } stroke)
        {
            var full = last.FullVoltageStroke(posterior.Model.Feeder)!.Value;
            var where = full < band.Low.Metres ? "below" : full > band.Limit.Metres ? "above the over-stroke limit, far above" : full > band.High.Metres ? "above" : "in";
            Say($"with {Stacks.Words(last.Rear)} in the rear the stroke is {Length.FromMetres(stroke)}{(TuningAdvisor.FullVoltage(last) ? "" : string.Create(CultureInfo.InvariantCulture, $" at {100 * last.VoltageRatio:0.#} % of full voltage, which full voltage would make {Length.FromMetres(full)}"))}: {where} the band of {band.Low} to {band.High}");
        }
        else
        {
            Say($"the last trial, with {Stacks.Words(last.Rear)} in the rear, gives no stroke");
        }

        Say($"{SideWords(advice, posterior)}");
        if (advice.Action is TuningAction.ChangeRearStack or TuningAction.AddStiffnessOrLightenTray && !Stacks.Same(advice.Choice.Rear, advice.Installed))
        {
            var change = 100 * ((advice.Choice.Stiffness / advice.Present.Stiffness) - 1);
            Say($"{Stacks.Words(advice.Choice.Rear)} makes all springs together {Math.Abs(change):0.0} % {(change < 0 ? "softer" : "stiffer")}; of {advice.Examined} stacks that stock and clamp allow it {(advice.Choice.InBand >= Some ? string.Create(CultureInfo.InvariantCulture, $"is the likeliest to land in the band ({100 * advice.Choice.InBand:0} %)") : "comes nearest to the band")} among those that exceed the limit in no more than 1 case of 100");
        }

        if (advice.Action == TuningAction.NoStackFits)
        {
            var why = advice.Choice.Stroke < band.Low.Metres ? "still below" : advice.Choice.Stroke > band.High.Metres ? "still above" : "in the band at best by chance; expected near";
            Say($"none of {advice.Examined} stacks that stock and clamp allow is expected in the band without danger of over-stroke; the nearest, {Stacks.Words(advice.Choice.Rear)}, would make {Length.FromMetres(advice.Choice.Stroke)}, {why} the band");
        }

        if (advice.Side != CurveSide.Unknown)
        {
            Say($"{LoadWords(advice.Present)}");
        }

        return because;
    }

    /// <summary>Gives what to mind.</summary>
    public static IReadOnlyList<string> Warnings(TuningAdvice advice, TuningPosterior posterior, StackStock stock)
    {
        var (last, feeder) = (posterior.Trials[^1], posterior.Model.Feeder);
        var warnings = new List<string>();
        void Warn(FormattableString text) => warnings.Add(text.ToString(CultureInfo.InvariantCulture));

        // The first of them: what is said before anything else.
        if (last.FullVoltageStroke(feeder) > feeder.Band.Limit.Metres)
        {
            Warn($"the stroke is over its limit of {feeder.Band.Limit}: stop the feeder, and do not run it at full voltage with this stack again");
        }

        if (advice.Action == TuningAction.MeasureFirst)
        {
            Warn($"{Missing(advice, posterior)}");
        }

        if (advice.Side == CurveSide.Reverse)
        {
            var lighter = advice.KilogramsToResonance is { } kilograms && kilograms < 0 ? string.Create(CultureInfo.InvariantCulture, $"; taking weight off the tray would do it too: the top of the tuning curve lies {-kilograms:0.0} kg away, and the feeder must go well past it") : "";
            Warn($"the feeder stands on the reverse side: tuning means nothing there, and material on the tray takes stroke away. Bring it back first{lighter}");
        }

        if (advice.Action is TuningAction.ChangeRearStack or TuningAction.AddStiffnessOrLightenTray)
        {
            Change(advice, feeder, warnings);
        }

        if (stock.MostAssumed)
        {
            Warn($"the feeder file does not say how many leaves the rear clamp takes (max_rear_leaves); no more than {stock.MostLeaves} were counted on");
        }

        if (stock.StockAssumed)
        {
            Warn($"the feeder file names no leaves at hand (stock_mm); only thicknesses of its rear stack were counted on");
        }

        if (posterior.Misfit > Surprise + (2 * posterior.Readings))
        {
            Warn($"the trials do not go together with the feeder file: check masses, leaves and length in it, the stacks of the trials, and the drive's frequency; ranges are wider than usual");
        }

        return warnings;
    }

    /// <summary>Says what load does to the stroke.</summary>
    public static string LoadWords(StackPrediction stack) => string.Create(
        CultureInfo.InvariantCulture,
        $"load moves the stroke: each 1 % of the tray's weight put on it {(stack.ChangePerPercentTray >= 0 ? "raises" : "lowers")} it by about {100 * Math.Abs(Math.Exp(stack.ChangePerPercentTray) - 1):0.0} %");

    private static void Change(TuningAdvice advice, Feeder.FeederDescription feeder, List<string> warnings)
    {
        var choice = advice.Choice;
        void Warn(FormattableString text) => warnings.Add(text.ToString(CultureInfo.InvariantCulture));
        if (advice.Installed.Any(layer => layer.Count > 0) && choice.OtherThickness)
        {
            Warn($"the stack mixes in leaves of another thickness: a leaf that is replaced because it broke gets one of its own thickness; write down what is where");
        }

        if (!choice.Symmetric)
        {
            Warn($"the leaves cannot be laid the same from the middle outwards on both sides; put the odd ones in the middle");
        }

        if (feeder.Springs!.EnduranceStress is { } endurance && choice.StressHigh > 0.85 * endurance)
        {
            Warn($"leaf stress comes near the leaves' endurance: {choice.StressHigh / 1e6:0} MPa at the upper end of the predicted range, of {endurance / 1e6:0} MPa");
        }

        if (choice.InBand < 0.5)
        {
            Warn($"{(choice.InBand >= Some ? string.Create(CultureInfo.InvariantCulture, $"what is known does not reach further: the stack lands in the band with {100 * choice.InBand:0} %") : "this is a step on the way, not into the band")}; the reading after it, best with a coast-down, will tell more");
        }
    }

    private static string SideWords(TuningAdvice advice, TuningPosterior posterior)
    {
        var drive = posterior.Model.DriveHz;
        var known = advice.NaturalHz is { } hertz ? string.Create(CultureInfo.InvariantCulture, $"natural frequency {hertz:0.00} Hz is {hertz / drive:0.000} times the drive's {drive:0.##} Hz: ") : "";
        return advice.Side switch
        {
            CurveSide.Normal => known + "the normal side of the tuning curve, where more rear stiffness lowers the stroke",
            CurveSide.Reverse => known + "the reverse side of the tuning curve, where more rear stiffness raises the stroke: the tray is too heavy for its springs",
            _ => known + string.Create(CultureInfo.InvariantCulture, $"the trials do not tell the side of the tuning curve (normal side {100 * advice.NormalProbability:0} %)"),
        };
    }

    private static string Missing(TuningAdvice advice, TuningPosterior posterior)
    {
        var last = posterior.Trials[^1];
        return !posterior.Trials.Any(trial => trial.StrokeMetres is not null) ? "no trial holds a stroke: run the empty feeder at full voltage and measure it"
            : !TuningAdvisor.FullVoltage(last) && TuningAdvisor.MeasuredInBand(last, posterior.Model.Feeder) ? "the stroke was not read at full voltage: set full voltage and measure again"
            : $"without the natural frequency any change of leaves may go the wrong way: capture a stop of the empty feeder and give natural_frequency_hz, or the capture{(advice.Alternatives.Count > 0 ? string.Create(CultureInfo.InvariantCulture, $". Who cannot may try {Stacks.Words(advice.Alternatives[0].Rear)}, which stays below the limit in 99 cases of 100") : "")}";
    }
}
