namespace StrokeWatch.Session.Steps;

/// <summary>The conditions under which a stroke is held against its band; common practice, no source.</summary>
internal static class ConditionSteps
{
    /// <summary>Gets them, in order; the last one asks for all of them at once after a change.</summary>
    public static IReadOnlyList<ISessionStep> All { get; } =
    [
        new ConditionStep(
            SessionSteps.Empty, "Tray empty", "Is the tray empty: no material on it, none coming from the hopper?",
            "Close the hopper's gate and run the feeder until the tray is empty; what is caked on comes off with the feeder locked out. Then answer again.",
            "The band holds for the empty tray. Material weighs: on the normal side it raises the stroke, and it damps.", SessionSteps.Voltage),
        new ConditionStep(
            SessionSteps.Voltage, "Full voltage", "Is the controller at its full setting, and its meter within 3 % of the nameplate?",
            "Set the controller to full. Where its meter still shows less or more, have a licensed person put the supply right first: the stroke goes with about the square of the voltage. Then answer again.",
            "A feeder that is tuned at 95 % of its voltage has 10 % too much stroke at 100 %.", SessionSteps.Warm),
        new ConditionStep(
            SessionSteps.Warm, "Warm", "Has the feeder run for about 20 minutes, so that coil and rubber are warm?",
            "Let it run for about 20 minutes, unless its stroke is over the limit or it hammers. Then answer again.",
            "A cold coil draws more current and rubber mounts are stiffer: the stroke of a cold feeder is not the one it works with.", SessionSteps.Free),
        new ConditionStep(
            SessionSteps.Free, "Nothing touching", "Look, hands off: is the tray free all round, a finger's width from chute, skirt, seals and housing, and is nothing leaning on the feeder?",
            "Switch off, isolate, lock out, and give the tray room: loosen or trim what touches it. Then answer again.",
            "A tray that touches something is held up by it: leaves would be changed for a fault that is not theirs.", SessionSteps.Clean),
        new ConditionStep(
            SessionSteps.Clean, "Leaves dry and clean", "Look at both stacks, hands off: are the leaves dry and clean, without rust, oil or dust between them?",
            "Plan it: with the feeder locked out, take the stack apart, clean and dry leaves and clamped faces, and put it back to the manual's torque. Then answer again.",
            "Leaves that rub on dirt or slide on oil change their stiffness from day to day; no tuning lasts on them.", SessionSteps.Rear),
        new ConditionStep(
            SessionSteps.Again, "As before", "Is all as before: tray empty, full voltage, warm, nothing touching?",
            "Put it right first; then answer again.",
            "Two readings can be compared only where nothing but the stack has changed.", SessionSteps.Measure),
    ];
}
