namespace StrokeWatch.Session.Steps;

/// <summary>The table of steps; a new step is a new file and a line here.</summary>
internal static class SessionSteps
{
    /// <summary>Ids that other steps lead to.</summary>
    public const string Who = "who", Cautions = "cautions", Empty = "empty", Voltage = "voltage", Warm = "warm", Free = "free", Clean = "clean", Rear = "rear",
        Measure = "measure", CaptureFile = "capture-file", Stop = "stop", Reading = "reading", Advice = "advice", OtherStack = "other-stack", Tray = "tray", LockOut = "lock-out",
        Change = "change", Bolts = "bolts", Gap = "gap", Installed = "installed", Restart = "restart", Again = "again", InBand = "in-band", Baseline = "baseline", Sign = "sign", Over = "over",
        Checks = "checks", CheckLockOut = "check-lock-out", StillLocked = "still-locked", Check = "check:";

    /// <summary>Gets all steps.</summary>
    public static IReadOnlyList<ISessionStep> All { get; } =
    [
        new WhoStep(),
        .. ConfirmSteps.All,
        .. ConditionSteps.All,
        new RearStep(),
        new MeasureStep(),
        new CaptureFileStep(),
        new StopStep(),
        new ReadingStep(),
        new AdviceStep(),
        new OtherStackStep(),
        new TrayStep(),
        new ChangeStep(),
        new InstalledStep(),
        new InBandStep(),
        new BaselineStep(),
        new SignStep(),
        new OverStep(),
        new ChecksStep(),
        new CheckLockOutStep(),
        new StillLockedStep(),
        new CheckStep(),
    ];
}
