using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Uncertainty;

namespace StrokeWatch.Assessment.Reports;

/// <summary>The supply over a whole capture and the stroke that full voltage would make; null where not known, with the reason.</summary>
public sealed record SupplySummary
{
    /// <summary>Gets the voltage's root mean square in volts: median over the windows in which the feeder ran steadily, or as entered.</summary>
    public double? Volts { get; init; }

    /// <summary>Gets the mains' root mean square in volts, whether or not a controller cuts it before the channel; as entered where none is captured.</summary>
    public double? MainsVolts { get; init; }

    /// <summary>Gets whether the voltage was captured; false where it was entered, or is not known.</summary>
    public bool Captured { get; init; }

    /// <summary>Gets whether nothing but the root mean square was read, so that nothing is known of the waveform.</summary>
    public bool RmsAlone { get; init; }

    /// <summary>Gets the mains' voltage over full voltage.</summary>
    public double? ShareOfFull { get; init; }

    /// <summary>Gets how far the motion's fundamental runs ahead of the supply, in degrees from -180 to 180: circular median over steady windows. See <c>SupplyReading.PhaseDegrees</c>.</summary>
    public double? PhaseDegrees { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of that phase in degrees.</summary>
    public double? PhaseUncertaintyDegrees { get; init; }

    /// <summary>Gets the share of the cycle in which there is voltage, 0 to 1.</summary>
    public double? ConductionShare { get; init; }

    /// <summary>Gets the firing angle in degrees.</summary>
    public double? FiringDegrees { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of the firing angle in degrees.</summary>
    public double? FiringUncertaintyDegrees { get; init; }

    /// <summary>Gets the stroke in metres that full voltage would make; null where the law that says so does not hold.</summary>
    public double? FullStroke { get; init; }

    /// <summary>Gets the uncertainty budget of that stroke in metres.</summary>
    public UncertaintyBudget? Budget { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of that stroke in metres.</summary>
    public double? FullUncertainty { get; init; }

    /// <summary>Gets where that stroke lies.</summary>
    public Verdict? FullVerdict { get; init; }

    /// <summary>Gets what the voltage has to do with the verdict, as a clause; null where nothing.</summary>
    public string? Words { get; init; }

    /// <summary>Gets why something is missing; null where all was measured.</summary>
    public string? Reason { get; init; }
}
