namespace StrokeWatch.Outputs.Book;

/// <summary>One trial of a tuning session; what was not measured is null.</summary>
public sealed record BookTrial
{
    /// <summary>Gets its number; 0 before it is written.</summary>
    public long Id { get; init; }

    /// <summary>Gets the session; null for a trial outside of one.</summary>
    public long? Session { get; init; }

    /// <summary>Gets when it was measured.</summary>
    public required DateTimeOffset Utc { get; init; }

    /// <summary>Gets the rear stack, thickest leaves first: <c>4x4.0 1x3.0</c> is four leaves of 4 mm and one of 3 mm.</summary>
    public required string Rear { get; init; }

    /// <summary>Gets the front stack, written alike.</summary>
    public string? Front { get; init; }

    /// <summary>Gets the stroke in metres, peak to peak along the line of action.</summary>
    public double? StrokeMetres { get; init; }

    /// <summary>Gets the stroke's expanded uncertainty in metres (k = 2).</summary>
    public double? UncertaintyMetres { get; init; }

    /// <summary>Gets the stroke's relative standard deviation from reading to reading.</summary>
    public double? StrokeSpread { get; init; }

    /// <summary>Gets the verdict's word as in <c>replay --json</c>.</summary>
    public required string Verdict { get; init; }

    /// <summary>Gets why there is no stroke.</summary>
    public string? Reason { get; init; }

    /// <summary>Gets the frequency of the free decay (damped) in Hz.</summary>
    public double? NaturalHz { get; init; }

    /// <summary>Gets the natural frequency's expanded uncertainty in Hz (k = 2).</summary>
    public double? NaturalUncertaintyHz { get; init; }

    /// <summary>Gets the damping ratio.</summary>
    public double? DampingRatio { get; init; }

    /// <summary>Gets the supply's voltage over full voltage, 1 for full.</summary>
    public double? VoltageRatio { get; init; }

    /// <summary>Gets by how much the tray was heavier than the feeder file says, in kg.</summary>
    public double? TrayChangeKilograms { get; init; }

    /// <summary>Gets the capture's file name.</summary>
    public string? Capture { get; init; }

    /// <summary>Gets the line of action in degrees above the x axis.</summary>
    public double? LineAngleDegrees { get; init; }

    /// <summary>Gets whether the armature was heard striking; null where it could not be judged.</summary>
    public bool? Strike { get; init; }

    /// <summary>Gets whether it was left out of the advice because something was wrong with it.</summary>
    public bool LeftOut { get; init; }

    /// <summary>Gets whether it counts: not left out, and with a stroke or a natural frequency.</summary>
    public bool Counts => !LeftOut && (StrokeMetres is not null || NaturalHz is not null);

    /// <summary>Gets a note.</summary>
    public string? Note { get; init; }
}
