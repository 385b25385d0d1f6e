namespace StrokeWatch.Session.Steps;

/// <summary>The steps that ask for a confirmation.</summary>
internal static class ConfirmSteps
{
    /// <summary>Gets them.</summary>
    public static IReadOnlyList<ISessionStep> All { get; } =
    [
        new ConfirmStep
        {
            Id = SessionSteps.Cautions,
            Title = "Cautions",
            Text = SessionWords.Cautions,
            Confirms = "I have read this, and I know how to isolate and lock out this feeder",
            CanCheck = false,
            Explain = "A feeder that starts while hands are in it, or an armature that hammers, does more harm than any mistuning. Nothing is measured or advised before this is confirmed.",
            Then = state => state with { Step = SessionSteps.Empty },
        },
        new ConfirmStep
        {
            Id = SessionSteps.LockOut,
            Title = "Isolate and lock out",
            Text = SessionWords.LockOut,
            Confirms = "it is isolated, locked out and verified dead, and the tray is propped",
            Explain = SessionWords.WhyLockOut,
            Then = state => state with { Step = SessionSteps.Change, LockedOut = true },
        },
        new ConfirmStep
        {
            Id = SessionSteps.Bolts,
            Title = "Bolts",
            Text = SessionWords.Bolts,
            Confirms = "engagement is enough and every bolt is at its torque",
            Enter = true,
            Explain = "Too little thread strips under vibration; a bolt that is not at its torque lets the clamp work, which takes stiffness from the stack and frets the leaves until they crack.",
            Then = state => state with { Step = SessionSteps.Gap },
        },
        new ConfirmStep
        {
            Id = SessionSteps.Gap,
            Title = "Air gap",
            Text = SessionWords.Gap,
            Confirms = "the gap is right and even at all four corners",
            Enter = true,
            Explain = "A gap that has changed with the stack changes pull and current by itself, so that the next reading would not be the leaves' alone; one that is too small lets the armature strike, one that is too wide heats the coil.",
            Then = state => state with { Step = SessionSteps.Installed },
        },
        new ConfirmStep
        {
            Id = SessionSteps.Restart,
            Title = "Before it runs again",
            Text = SessionWords.Restart,
            Confirms = "everybody is clear, guards are on, locks are off, and I stand by the switch",
            CanCheck = false,
            Explain = "The first seconds with another stack are the riskiest: the forecast says over-stroke in no more than 1 case of 100, not in none.",
            Then = state => state with { Step = SessionSteps.Again, LockedOut = false },
        },
    ];
}
