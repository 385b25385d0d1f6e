using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>Finds the magnet that makes the wanted stroke, by running the machine itself to its steady state.</summary>
internal static class StrokeScaler
{
    private const int Rounds = 8;
    private const double Tolerance = 1e-7;

    /// <summary>Gives the magnet for the scenario's stroke or peak pull, at full voltage, with load, without contact, pieces or lumps.</summary>
    public static MagnetScale Solve(FeederScenario scenario, double stepSeconds)
    {
        if (scenario.Magnet is { } known)
        {
            return known;
        }

        scenario = FaultTable.Commissioned(scenario);
        var quiet = scenario with
        {
            WarmStart = true,
            Strike = null,
            Neighbours = [],
            Sensors = [],
            Material = scenario.Material with { ImpactsPerSecond = 0, LumpNewtons = 0 },
            Supply = scenario.Supply with { Voltage = [(0, 100)], On = [], WanderHz = 0 },
        };
        var parts = MachineBuild.Parts(quiet, false, 0);
        var band = scenario.Feeder.Band;
        var stroke = (scenario.Stroke?.Metres ?? ((band.Low.Metres + band.High.Metres) / 2));
        var perNewton = TwoMass.TrayAmplitude(
            1, scenario.Feeder.Drive.NominalHz, parts.Stiffness, scenario.Machine.DampingRatio, parts.TrayKilograms, parts.BodyKilograms);
        var scale = new MagnetScale(scenario.PeakPull ?? (stroke / (4 * perNewton)), 0);
        for (var round = 0; round < Rounds; round++)
        {
            var (reached, peak) = Run(quiet, stepSeconds, scale);
            var ratio = scenario.PeakPull is { } wanted ? wanted / peak : stroke / reached;
            scale = new(scale.ForceAtUnitFlux * ratio, peak * ratio);
            if (Math.Abs(ratio - 1) < Tolerance)
            {
                break;
            }
        }

        return scale;
    }

    private static (double Stroke, double PeakPull) Run(FeederScenario quiet, double step, MagnetScale scale)
    {
        var settle = MachineBuild.Settle(quiet, 14, 6);
        var machine = new FeederMachine(quiet, step, -settle, scale, false);
        var window = new TruthWindow(step, quiet.Feeder.Drive.NominalHz);
        double peak = 0;
        while (true)
        {
            machine.Step();
            if (machine.Seconds < 0)
            {
                continue;
            }

            peak = Math.Max(peak, machine.Pull);
            if (window.Add(machine.Seconds, machine.Phase, machine.Displacement) is { } reading)
            {
                return (reading.PeakToPeak, peak);
            }
        }
    }
}
