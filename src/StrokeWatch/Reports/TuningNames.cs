using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Reports;

/// <summary>The words of the contract for sides and actions, and the cautions that stand beside any advice to change springs.</summary>
internal static class TuningNames
{
    /// <summary>What to mind before and while leaves are changed; common practice, no source, but the first, which follows OSHA 29 CFR 1910.147.</summary>
    public static readonly IReadOnlyList<string> Cautions =
    [
        "switch off, isolate, lock and tag, and verify before hands go near springs, clamps or air gap; support the tray and loosen evenly: leaves may be under preload",
        "leaves and clamped faces must be dry and clean: no oil, paint, rust or dust",
        "tighten to the torque in the machine's manual, from the middle outwards; thread engagement at least 1.5 bolt diameters: longer stacks may need longer bolts",
        "change the rear stack only; the front stack was set when the feeder was built",
        "measure with the tray empty, at full voltage, warm, with nothing touching it; stop at once where the stroke exceeds its limit or the armature strikes",
    ];

    /// <summary>Gives a side's word.</summary>
    public static string Of(CurveSide side) => side switch
    {
        CurveSide.Normal => "normal",
        CurveSide.Reverse => "reverse",
        _ => "unknown",
    };

    /// <summary>Gives an action's word.</summary>
    public static string Of(TuningAction action) => action switch
    {
        TuningAction.None => "none",
        TuningAction.ChangeRearStack => "change-rear-stack",
        TuningAction.AddStiffnessOrLightenTray => "add-stiffness-or-lighten-tray",
        TuningAction.MeasureFirst => "measure-first",
        _ => "no-stack-fits",
    };

    /// <summary>Gives the side that a stack leads to.</summary>
    public static CurveSide After(StackPrediction stack) => stack.Normal >= TuningAdvisor.Sure ? CurveSide.Normal : stack.Normal <= 1 - TuningAdvisor.Sure ? CurveSide.Reverse : CurveSide.Unknown;
}
