using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Magnet;

namespace StrokeWatch.Machine.Tuning;

/// <summary>One trial: a rear stack and what the feeder did with it.</summary>
public sealed record TuningTrial
{
    /// <summary>Gets the rear stack.</summary>
    public required IReadOnlyList<LeafLayer> Rear { get; init; }

    /// <summary>Gets the stroke in metres, peak to peak along the line of action, empty tray; null where only the free vibration was read.</summary>
    public double? StrokeMetres { get; init; }

    /// <summary>Gets the stroke's relative standard uncertainty from reading to reading (k = 1); 0.01 where nothing says it (common practice, no source).</summary>
    public double StrokeSpread { get; init; } = 0.01;

    /// <summary>Gets the frequency of the free decay (damped) in Hz, if read.</summary>
    public double? NaturalHz { get; init; }

    /// <summary>Gets the standard uncertainty of <see cref="NaturalHz"/> in Hz; null for what is usual, see <see cref="TuningPriors.NaturalSpread"/>.</summary>
    public double? NaturalSpreadHz { get; init; }

    /// <summary>Gets the damping ratio, if read.</summary>
    public double? DampingRatio { get; init; }

    /// <summary>Gets the supply's voltage over full voltage, 1 for full.</summary>
    public double VoltageRatio { get; init; } = 1;

    /// <summary>Gets whether the voltage was read; else it is taken as full.</summary>
    public bool VoltageRead { get; init; }

    /// <summary>Gets how much heavier the tray was than the feeder file says, in kg; negative for lighter.</summary>
    public double TrayChangeKilograms { get; init; }

    /// <summary>Gives the stroke in metres that full voltage would have made with a feeder's magnet, plain or biased (Magnet/Supply); null where there is no stroke.</summary>
    public double? FullVoltageStroke(FeederDescription feeder)
    {
        ArgumentNullException.ThrowIfNull(feeder);
        return StrokeMetres is { } stroke ? Supply.NormaliseStroke(stroke, VoltageRatio, feeder.Supply?.Biased == true) : null;
    }
}
