namespace StrokeWatch.Machine.Tuning;

/// <summary>
/// What is taken for granted of a feeder before any trial, and how far it may be wrong (standard deviations; of logarithms where the word "relative" stands).
/// </summary>
/// <remarks>
/// Common practice, no source. The widths were set so that the ranges of <c>tune-study</c> hold on seeds other than those it is judged by (DEVELOPERS.md).
/// </remarks>
public sealed record TuningPriors
{
    /// <summary>Gets how stiff clamped leaves are against the leaf formula: bolts, clamps and frame give way too.</summary>
    public double JointEfficiency { get; init; } = 0.82;

    /// <summary>Gets the relative spread of the joints' efficiency from feeder to feeder.</summary>
    public double JointSpread { get; init; } = 0.14;

    /// <summary>Gets the efficiency of the rear joints over that of the front.</summary>
    public double RearRatio { get; init; } = 1.03;

    /// <summary>Gets the relative spread of that ratio.</summary>
    public double RearSpread { get; init; } = 0.045;

    /// <summary>Gets the stiffness of the feeder file's rear leaves over that of the clamps and the frame that hold them: a stiffer stack presses them harder, which takes back part of it.</summary>
    public double Give { get; init; } = 0.06;

    /// <summary>Gets the relative spread of the give.</summary>
    public double GiveSpread { get; init; } = 0.5;

    /// <summary>Gets how much longer than free a leaf bends, as a multiple of its thickness, both clamps together: thick leaves lose more stiffness than thin ones.</summary>
    public double Penetration { get; init; } = 0.8;

    /// <summary>Gets the relative spread of that multiple.</summary>
    public double PenetrationSpread { get; init; } = 0.6;

    /// <summary>Gets the relative spread of the tray's mass about the feeder file's: liners, weldings, build-up.</summary>
    public double TraySpread { get; init; } = 0.08;

    /// <summary>Gets the relative spread of the body's mass about the feeder file's.</summary>
    public double BodySpread { get; init; } = 0.08;

    /// <summary>Gets the damping ratio.</summary>
    public double DampingRatio { get; init; } = 0.02;

    /// <summary>Gets the relative spread of the damping ratio.</summary>
    public double DampingSpread { get; init; } = 0.5;

    /// <summary>Gets by which share of the springs' stiffness the running magnet softens them.</summary>
    public double Softening { get; init; } = 0.006;

    /// <summary>Gets the relative spread of the softening.</summary>
    public double SofteningSpread { get; init; } = 1.0;

    /// <summary>Gets by how much the damping ratio is higher while the magnet runs: its flux goes with the gap, and lags.</summary>
    public double MagnetDamping { get; init; } = 0.003;

    /// <summary>Gets the relative spread of that addition.</summary>
    public double MagnetDampingSpread { get; init; } = 0.8;

    /// <summary>Gets the relative spread of the force about what would put the expected machine into the middle of its band: nothing is known of it.</summary>
    public double ForceSpread { get; init; } = 1.5;

    /// <summary>Gets the relative spread of the rear stack's stiffness from one clamping to the next.</summary>
    public double ClampingSpread { get; init; } = 0.005;

    /// <summary>Gets the relative spread of strokes about the model: harmonics, rocking, a force that goes with the gap.</summary>
    public double StrokeSpread { get; init; } = 0.0045;

    /// <summary>Gets the relative spread of a natural frequency read from a coast-down about the model.</summary>
    public double NaturalSpread { get; init; } = 0.0012;

    /// <summary>Gets the relative spread of a damping ratio read from a coast-down about the model.</summary>
    public double DampingReadingSpread { get; init; } = 0.15;
}
