using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>Small steps that kinds of faults share.</summary>
internal static class FaultChange
{
    private const int UsualLeaves = 5;
    private const double UsualGap = 2.2e-3;

    /// <summary>Gives the scenario with its physics changed.</summary>
    public static FeederScenario Physics(FeederScenario scenario, Func<FaultPhysics, FaultPhysics> change) =>
        scenario with { Physics = change(scenario.Physics ?? new()) };

    /// <summary>Gives the scenario with its moving parts changed.</summary>
    public static FeederScenario Machine(FeederScenario scenario, Func<SimulatedMachine, SimulatedMachine> change) => scenario with { Machine = change(scenario.Machine) };

    /// <summary>Gives half the stroke at full voltage in metres, empty.</summary>
    public static double Amplitude(FeederScenario scenario) =>
        0.5 * (scenario.Stroke?.Metres ?? (0.5 * (scenario.Feeder.Band.Low.Metres + scenario.Feeder.Band.High.Metres)));

    /// <summary>Gives how many leaves stand at one end.</summary>
    public static int Leaves(FeederScenario scenario, bool front) => scenario.Feeder.Springs is { } springs
        ? Math.Max(1, (front ? springs.Front : springs.Rear).Sum(layer => layer.Count)) : UsualLeaves;

    /// <summary>Gives one end's share of the stiffness of all leaves.</summary>
    public static double EndShare(FeederScenario scenario, bool front)
    {
        if (scenario.Feeder.Springs is not { } springs)
        {
            return 0.5;
        }

        var ends = (Front: springs.Front.Sum(Cube), Rear: springs.Rear.Sum(Cube));
        return ends.Front + ends.Rear > 0 ? (front ? ends.Front : ends.Rear) / (ends.Front + ends.Rear) : 0.5;
    }

    /// <summary>
    /// Takes a share of all stiffness away at one end. The springs' resultant then passes beside the centre of mass and rocks the tray: the softer end moves more,
    /// the line of action turns towards it and the path opens to an ellipse, all in proportion to the lack of balance (a rigid tray; proportions assumed).
    /// </summary>
    public static FeederScenario Soften(FeederScenario scenario, double share, bool front)
    {
        var rocking = front ? share : -share;
        var soft = Physics(scenario, physics => physics with
        {
            StiffnessFactor = physics.StiffnessFactor * (1 - share),
            LineTurnDegrees = physics.LineTurnDegrees + (12 * rocking),
        });
        soft = Machine(soft, machine => machine with { EllipseRatio = machine.EllipseRatio + (0.25 * share) });
        return Ends(soft, (1 + (0.4 * rocking), 0), (1 - (0.4 * rocking), 0));
    }

    /// <summary>Scales the stroke of the sensors at either end and moves their phases.</summary>
    public static FeederScenario Ends(FeederScenario scenario, (double Scale, double Degrees) front, (double Scale, double Degrees) rear) => scenario with
    {
        Sensors = [.. scenario.Sensors.Select(place =>
        {
            var name = SensorPlaces.Name(place.Place);
            var (scale, degrees) = name.StartsWith("front", StringComparison.Ordinal) ? front : name.StartsWith("rear", StringComparison.Ordinal) ? rear : (1.0, 0.0);
            return place with { StrokeScale = place.StrokeScale * scale, PhaseDegrees = place.PhaseDegrees + degrees };
        })],
    };

    /// <summary>Closes the gap at rest to a share of it; flux that leaked past it then crosses it, so that the pull grows, the more the nearer (a negative stiffness).</summary>
    /// <remarks>The healthy model leaves leakage out; it comes in with the closing, so that a gap that is hardly closed is hardly another machine.</remarks>
    public static FeederScenario CloseGap(FeederScenario scenario, double factor)
    {
        var rest = scenario.Feeder.RestGapMetres ?? UsualGap;
        return Physics(scenario, physics => physics with { GapFactor = physics.GapFactor * factor, Leakage = physics.Leakage + (1 - factor) }) with
        {
            Feeder = scenario.Feeder with { RestGapMetres = rest * factor },
        };
    }

    private static double Cube(Machine.Feeder.LeafLayer layer) => layer.Count * Math.Pow(layer.ThicknessMetres, 3);
}
