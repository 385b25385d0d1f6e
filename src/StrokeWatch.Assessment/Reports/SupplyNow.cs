using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Reports;

/// <summary>The supply in one window, and the stroke that full voltage would make; null where not known, with the reason.</summary>
public sealed record SupplyNow
{
    private const string NoChannel = "no voltage is captured with the samples";

    /// <summary>Gets what the channel showed.</summary>
    public SupplyReading Reading { get; private init; }

    /// <summary>Gets whether there is a channel.</summary>
    public bool Captured { get; private init; }

    /// <summary>Gets the mains' voltage over full voltage, as the feeder file has it.</summary>
    public double? ShareOfFull { get; private init; }

    /// <summary>Gets the stroke in metres that full voltage would make; null where the law that says so does not hold.</summary>
    public double? FullStroke { get; private init; }

    /// <summary>Gets why something is missing; null where all is known.</summary>
    public string? Reason { get; private init; }

    /// <summary>Reads a window.</summary>
    public static SupplyNow Of(in WindowReading window, FeederDescription feeder)
    {
        if (window.Supply is not { } reading)
        {
            return new() { Reason = NoChannel };
        }

        var share = reading.MainsVolts / feeder.Supply?.FullVolts;
        var stroke = window is { Quality: WindowQuality.Good, Motion: MotionState.Running } ? window.StrokeMetres : null;
        var summary = new SupplySummary
        {
            Volts = reading.RmsVolts,
            MainsVolts = reading.MainsVolts,
            Captured = true,
            RmsAlone = reading.RmsAlone,
            ShareOfFull = share,
            ConductionShare = reading.ConductionShare,
            FiringDegrees = reading.FiringDegrees,
        };
        var impossible = FullVoltage.Impossible(summary, feeder, stroke, window.Strike);
        return new()
        {
            Reading = reading,
            Captured = true,
            ShareOfFull = share,
            FullStroke = impossible is null ? Machine.Magnet.Supply.NormaliseStroke(stroke!.Value, share!.Value, feeder.Supply!.Biased) : null,
            Reason = reading.MainsVolts is null ? reading.Reason : impossible ?? reading.Reason,
        };
    }
}
