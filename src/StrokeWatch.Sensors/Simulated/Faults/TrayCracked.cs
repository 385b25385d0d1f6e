namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A crack in the tray or a weld: it opens and closes each stroke, and the tray's lowest flexible mode falls, grows and rings longer.</summary>
internal sealed class TrayCracked : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "tray-cracked";

    /// <inheritdoc/>
    public string Meaning => "at 1 the lowest flexible mode has fallen by 40 % and moves three times as much, and 5 % of the stiffness is lost while the crack is open";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) =>
        FaultChange.Machine(FaultChange.Physics(scenario, physics => physics with { OpenCrackShare = physics.OpenCrackShare + (0.05 * severity) }), machine => machine with
        {
            Modes = [.. machine.Modes.Select((mode, i) => i > 0 ? mode : mode with
            {
                FrequencyHz = mode.FrequencyHz * (1 - (0.4 * severity)),
                DampingRatio = mode.DampingRatio * (1 - (0.4 * severity)),
                Share = mode.Share * (1 + (2 * severity)),
            })],
        });
}
