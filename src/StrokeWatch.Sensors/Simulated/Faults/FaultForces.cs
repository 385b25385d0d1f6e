using StrokeWatch.Machine.Dynamics;

namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>Forces that faults add to the machine, beside its linear springs: worked out at the middle of a step, ahead of the motion by half of it.</summary>
internal sealed class FaultForces(FaultPhysics faults, MechanicalParameters parts, double sag)
{
    private const double SlowSpeed = 0.01;
    private double slider;

    /// <summary>Makes the forces of a scenario; null where its faults add none.</summary>
    public static FaultForces? Of(FaultPhysics? faults, MechanicalParameters parts, double sag) =>
        faults is { OpenCrackShare: not 0 } or { Joint: not null } or { Rub: not null } ? new(faults, parts, sag) : null;

    /// <summary>Gives the force in N on the tray against the body, and on the tray from outside.</summary>
    public (double Between, double Push) At(TwoMassMotion motion, double step)
    {
        var opening = motion.Opening + sag + (0.5 * step * motion.OpeningSpeed);
        double between = 0, push = 0;
        if (faults.OpenCrackShare > 0 && opening > 0)
        {
            // An open crack carries nothing: its share of the spring's force is taken off.
            between += faults.OpenCrackShare * parts.Stiffness * opening;
        }

        if (faults.Joint is { } joint)
        {
            var stiffness = joint.StiffnessShare * parts.Stiffness;
            slider = Math.Clamp(slider, opening - joint.SlipMetres, opening + joint.SlipMetres);
            between += stiffness * slider;
        }

        if (faults.Rub is { } rub)
        {
            var depth = motion.Tray + sag + (0.5 * step * motion.TrayVelocity) - rub.ClearanceMetres;
            if (depth > 0)
            {
                var normal = rub.StiffnessShare * parts.Stiffness * depth;
                push -= normal * (1 + (rub.Friction * Math.Tanh(motion.TrayVelocity / SlowSpeed)));
            }
        }

        return (between, push);
    }
}
