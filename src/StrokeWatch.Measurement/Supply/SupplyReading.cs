namespace StrokeWatch.Measurement.Supply;

/// <summary>What the supply's channel showed in one window of whole cycles; null where not measured, with the reason.</summary>
public readonly record struct SupplyReading
{
    /// <summary>Gets the true root mean square of the voltage in volts, a constant part included.</summary>
    public double? RmsVolts { get; init; }

    /// <summary>Gets the root mean square in volts that the mains has, whether or not a controller cuts it: that of the sine through the pieces that are there where it is cut, else <see cref="RmsVolts"/>.</summary>
    public double? MainsVolts { get; init; }

    /// <summary>Gets the root mean square in volts of the part at the supply's own frequency.</summary>
    public double? FundamentalVolts { get; init; }

    /// <summary>Gets how far the fundamental of the displacement along the line of action runs ahead of the supply, in degrees from -180 to 180; two strokes a cycle are counted against twice the supply's phase.</summary>
    /// <remarks>Both counted as sines: 0 where the tray passes its middle, on the way up its line, as the voltage passes zero upwards. The lag of the sensor's filter is taken off where its corner is known.</remarks>
    public double? PhaseDegrees { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of that phase in degrees by the lag of the sensor's filter, the same in all windows.</summary>
    public double? PhaseUncertaintyDegrees { get; init; }

    /// <summary>Gets the share of the cycle in which there is voltage, 0 to 1: 1 ahead of a controller, less behind one that cuts.</summary>
    public double? ConductionShare { get; init; }

    /// <summary>Gets the firing angle in degrees after the zero of the mains, 0 to 180; null where no part of the cycle is without voltage.</summary>
    public double? FiringDegrees { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of the firing angle in degrees, by how densely the samples lie in the cycle.</summary>
    public double? FiringUncertaintyDegrees { get; init; }

    /// <summary>Gets whether nothing but the root mean square was read, by a converter beside the sensor: of the waveform nothing is known, and where a controller cuts it before the converter, <see cref="MainsVolts"/> is not the mains'.</summary>
    public bool RmsAlone { get; init; }

    /// <summary>Gets why something is missing; null where all was measured.</summary>
    public string? Reason { get; init; }
}
