using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Magnet;

namespace StrokeWatch.Machine.Tuning;

/// <summary>
/// A feeder on its leaf stacks: two masses, all leaves between them, one force of the drive's frequency; what it moves for a <see cref="FeederState"/>.
/// </summary>
/// <remarks>
/// Source: leaf k = E b t³/L³ with L lengthened by the depth to which it bends inside its clamps (Springs/LeafSpring), the rear stack in series with what holds it, two masses free on soft mounts (Dynamics/TwoMass), steady response of a damped
/// oscillator (Dynamics/Resonance). The running magnet's softening is taken off the springs, and its damping added, in the steady motion and not in the free one.
/// </remarks>
public sealed class FeederModel
{
    private readonly SpringDescription springs;
    private readonly MassDescription masses;
    private readonly double omega;
    private readonly double rearOfFile;

    /// <summary>Makes the model of a feeder whose file describes springs and masses.</summary>
    /// <exception cref="ArgumentException">The springs or the masses are not described.</exception>
    public FeederModel(FeederDescription feeder)
    {
        ArgumentNullException.ThrowIfNull(feeder);
        springs = feeder.Springs ?? throw new ArgumentException("The feeder's springs are not described.", nameof(feeder));
        masses = feeder.Masses ?? throw new ArgumentException("The feeder's masses are not described.", nameof(feeder));
        (Feeder, DriveHz) = (feeder, feeder.Drive.NominalHz);
        omega = 2 * Math.PI * DriveHz;
        rearOfFile = springs.Rear.Sum(layer => layer.Count * springs.Modulus * springs.WidthMetres * Math.Pow(layer.ThicknessMetres / springs.LengthMetres, 3));
    }

    /// <summary>Gets the feeder.</summary>
    public FeederDescription Feeder { get; }

    /// <summary>Gets the frequency of the drive in Hz.</summary>
    public double DriveHz { get; }

    /// <summary>Gives the stiffness in N/m of a rear stack from the sum of its leaves': clamp and frame bend in series with it, so that a stiffer stack gains less than its leaves.</summary>
    public double RearStack(in FeederState state, double leaves) => leaves / (1 + (state.Give * leaves / (state.RearRatio * state.JointEfficiency * rearOfFile)));

    /// <summary>Gives the stiffness in N/m of one rear leaf of a thickness in metres, before its clamps give way.</summary>
    public double RearLeaf(in FeederState state, double thickness) => state.RearRatio * FrontLeaf(state, thickness);

    /// <summary>Gives the stiffness in N/m of the front stack.</summary>
    public double Front(in FeederState state)
    {
        var sum = 0.0;
        foreach (var layer in springs.Front)
        {
            sum += layer.Count * FrontLeaf(state, layer.ThicknessMetres);
        }

        return sum;
    }

    /// <summary>Gives the stiffness in N/m of front and rear stack; clamping is the logarithm of what the rear is stiffer than usual.</summary>
    public double Stiffness(in FeederState state, IReadOnlyList<LeafLayer> rear, double clamping)
    {
        var sum = 0.0;
        foreach (var layer in rear)
        {
            sum += layer.Count * RearLeaf(state, layer.ThicknessMetres);
        }

        return Front(state) + (Math.Exp(clamping) * RearStack(state, sum));
    }

    /// <summary>Gives the reduced mass in kg with a tray that is heavier by some kg.</summary>
    public static double Reduced(in FeederState state, double trayChange) => TwoMass.ReducedMass(state.TrayKilograms + trayChange, state.BodyKilograms);

    /// <summary>Gives the frequency of the free decay in Hz on a stiffness in N/m.</summary>
    public static double FreeHz(in FeederState state, double stiffness, double trayChange = 0) =>
        Decay.DampedFrequencyHz(TwoMass.NaturalFrequencyHz(stiffness, Reduced(state, trayChange)), state.DampingRatio);

    /// <summary>Gives the undamped natural frequency in Hz while the magnet runs, which decides the side of the tuning curve.</summary>
    public static double RunningHz(in FeederState state, double stiffness, double trayChange = 0) =>
        TwoMass.NaturalFrequencyHz(Math.Max(stiffness - state.Softening, 1), Reduced(state, trayChange));

    /// <summary>Gives the logarithm of the tray's stroke in metres, peak to peak, on a stiffness in N/m; voltage over full voltage, tray heavier by some kg.</summary>
    public double LogStroke(in FeederState state, double stiffness, double trayChange = 0, double voltage = 1) =>
        state.LogForce + LogCompliance(state, stiffness, trayChange) + (Supply.StrokeExponent(Feeder.Supply?.Biased == true) * Math.Log(voltage));

    /// <summary>Gives the logarithm of the stroke in metres that a newton makes at full voltage.</summary>
    public double LogCompliance(in FeederState state, double stiffness, double trayChange)
    {
        var (tray, body) = (state.TrayKilograms + trayChange, state.BodyKilograms);
        var reduced = TwoMass.ReducedMass(tray, body);
        var inPhase = stiffness - state.Softening - (reduced * omega * omega);
        var across = 2 * (state.DampingRatio + state.MagnetDamping) * omega * Math.Sqrt(stiffness * reduced);
        return Math.Log(2 * TwoMass.TrayShare(tray, body)) - (0.5 * Math.Log((inPhase * inPhase) + (across * across)));
    }

    /// <summary>Gives the machine that the feeder file and the usual figures describe, its force such that the file's rear stack lies in the middle of the band.</summary>
    public FeederState Expected(TuningPriors priors)
    {
        ArgumentNullException.ThrowIfNull(priors);
        var state = new FeederState(priors.JointEfficiency, priors.RearRatio, priors.Penetration, masses.TrayKilograms, masses.BodyKilograms, priors.DampingRatio, 0, 0, priors.MagnetDamping) { Give = priors.Give };
        var stiffness = Stiffness(state, springs.Rear, 0);
        state = state with { Softening = priors.Softening * stiffness };
        var middle = 0.5 * (Feeder.Band.Low.Metres + Feeder.Band.High.Metres);
        return state with { LogForce = Math.Log(middle) - LogCompliance(state, stiffness, 0) };
    }

    private double FrontLeaf(in FeederState state, double thickness)
    {
        var ratio = thickness / (springs.LengthMetres + (state.Penetration * thickness));
        return state.JointEfficiency * springs.Modulus * springs.WidthMetres * ratio * ratio * ratio;
    }
}
