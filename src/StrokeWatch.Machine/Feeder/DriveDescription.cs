namespace StrokeWatch.Machine.Feeder;

/// <summary>The supply and how the magnet uses it.</summary>
/// <param name="SupplyHz">Mains frequency in Hz.</param>
/// <param name="StrokesPerCycle">1 for half-wave or magnet-biased (stroke at mains frequency), 2 for full-wave (twice).</param>
/// <param name="Free">True for a variable-frequency drive, whose frequency is measured; false where it is locked to the mains.</param>
public sealed record DriveDescription(double SupplyHz, int StrokesPerCycle, bool Free)
{
    /// <summary>Gets the nominal stroke frequency in Hz.</summary>
    public double NominalHz => SupplyHz * StrokesPerCycle;
}
