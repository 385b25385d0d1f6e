using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Magnet;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>Turns a scenario into the numbers of the machine model.</summary>
internal static class MachineBuild
{
    private static readonly MassDescription UsualMasses = new(35, 70);

    /// <summary>Gives the drive's kind.</summary>
    public static DriveKind Kind(FeederScenario scenario) =>
        scenario.Supply.Kind ?? (scenario.Feeder.Drive.StrokesPerCycle == 2 ? DriveKind.FullWave : DriveKind.HalfWave);

    /// <summary>Gives the masses.</summary>
    public static MassDescription Masses(FeederScenario scenario) => scenario.Feeder.Masses ?? UsualMasses;

    /// <summary>Gives the natural frequency over the drive's, undamped and without load.</summary>
    public static double TuningRatio(FeederScenario scenario)
    {
        var (parts, masses) = (Parts(scenario, false, 0), Masses(scenario));
        return TwoMass.NaturalFrequencyHz(parts.Stiffness, masses.TrayKilograms, masses.BodyKilograms) / scenario.Feeder.Drive.NominalHz;
    }

    /// <summary>Gives the line of action above the tray's x axis, in radians.</summary>
    public static double LineAngle(FeederScenario scenario) =>
        ((scenario.Feeder.LineAngleDegrees ?? scenario.Machine.LineAngleDegrees) + (scenario.Physics?.LineTurnDegrees ?? 0)) * Math.PI / 180;

    /// <summary>Gives the moving parts with the load on; without contact where the gap is not known or the contact is left out.</summary>
    public static MechanicalParameters Parts(FeederScenario scenario, bool contact, double sag)
    {
        var machine = scenario.Machine;
        var faults = scenario.Physics;
        var masses = Masses(scenario);
        var tray = masses.TrayKilograms + scenario.Material.LoadKilograms + (faults?.ExtraTrayKilograms ?? 0);
        var natural = machine.NaturalFrequencyHz
            ?? (scenario.Feeder.Springs is null ? machine.TuningRatio * scenario.Feeder.Drive.NominalHz : null);
        var stiffness = natural is { } hz
            ? TwoMass.StiffnessFor(hz, masses.TrayKilograms, masses.BodyKilograms)
            : scenario.Feeder.Springs!.Stiffness();
        var left = stiffness * (faults?.StiffnessFactor ?? 1);
        var mountOmega = 2 * Math.PI * machine.MountHz;
        var total = masses.TrayKilograms + masses.BodyKilograms;
        var reduced = TwoMass.ReducedMass(tray, masses.BodyKilograms);
        return new MechanicalParameters
        {
            TrayKilograms = tray,
            BodyKilograms = masses.BodyKilograms,
            Stiffness = left,
            Damping = MechanicalParameters.DampingFor(machine.DampingRatio, stiffness, masses.Reduced) * (faults?.DampingFactor ?? 1),
            MountStiffness = total * mountOmega * mountOmega,
            MountDamping = 2 * machine.MountDampingRatio * total * mountOmega,
            ContactGap = contact && scenario.Feeder.RestGapMetres is { } gap ? gap + sag : double.PositiveInfinity,
            Contact = contact ? ContactLaw.From(machine.ContactSeconds, machine.Restitution, 0.1, reduced) : null,
        };
    }

    /// <summary>Gives the magnet at a pull in N for unit flux.</summary>
    public static MagnetParameters Magnet(FeederScenario scenario, double forceAtUnitFlux) => new()
    {
        Kind = Kind(scenario),
        ForceAtUnitFlux = forceAtUnitFlux,
        FiringDegrees = scenario.Supply.FiringDegrees,
        ResistanceRatio = scenario.Supply.ResistanceRatio,
        BiasFlux = Kind(scenario) == DriveKind.MagnetBiased ? scenario.Supply.BiasFlux : 0,
    };

    /// <summary>Gives the time in seconds in which a start dies away to a share of itself, the slower of the feeder's own decay and its mounts'.</summary>
    public static double Settle(FeederScenario scenario, double timeConstants, double mountTimeConstants)
    {
        var (hz, damping) = FreeModes.Highest(Parts(scenario, false, 0));
        return Math.Max(
            timeConstants * Decay.TimeConstant(hz, damping),
            mountTimeConstants * Decay.TimeConstant(scenario.Machine.MountHz, scenario.Machine.MountDampingRatio));
    }
}
