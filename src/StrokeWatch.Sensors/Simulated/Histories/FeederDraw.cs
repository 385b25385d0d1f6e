using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Sensors.Simulated.Histories;

/// <summary>Draws random feeders and what their captures have in common and apart.</summary>
internal static class FeederDraw
{
    private const int MachineStream = 41;
    private const int FirstCaptureStream = 100;
    private const double InternalHz = 20_000;
    private const double LowestRange = 2.5;

    private static readonly string[] TwoSensors = ["stroke-uneven", "drive-dead", "drive-out-of-phase"];

    /// <summary>Draws a healthy feeder; its magnet is set for its stroke, with a fault of a severity in it where it was commissioned so.</summary>
    public static FeederScenario Draw(ulong seed, string? fault, double severity)
    {
        var random = new SeededRandom(seed, MachineStream);
        double Between(double low, double high) => low + ((high - low) * random.Uniform());
        var supply = random.Uniform() < 0.5 ? 50 : 60;
        var strokes = random.Uniform() < 0.5 ? 1 : 2;
        var millimetres = strokes == 1 ? Between(1.2, 1.9) : Between(0.45, 0.8);
        var tray = Between(12, 60);
        var line = Between(15, 30);
        var peak = Math.Pow(2 * Math.PI * supply * strokes, 2) * millimetres / 2e3 / Gravity.Standard;
        var pair = random.Uniform() < 0.3 || (fault is not null && TwoSensors.Contains(fault));
        double[] flexible = [Between(320, 460), Between(650, 850), Between(1200, 1500)];
        var scenario = new FeederScenario
        {
            Name = fault ?? HistoryWishes.Healthy,
            Feeder = new()
            {
                Name = "Soda ash feeder",
                Drive = new(supply, strokes, false),
                Band = new(Length.FromMillimetres(0.95 * millimetres), Length.FromMillimetres(1.05 * millimetres), Length.FromMillimetres(1.13 * millimetres)),
                Masses = new(tray, tray * Between(1.6, 3)),
                RestGapMetres = 1e-3 * ((millimetres * Between(0.95, 1.2)) + 0.35),
                Sensor = new() { FullScale = (peak * LowestRange < 16 ? 16 : peak * LowestRange < 32 ? 32 : 64) * Gravity.Standard },
            },
            WarmStart = false,
            InternalHz = InternalHz,
            Stroke = Length.FromMillimetres(millimetres),
            Machine = new()
            {
                TuningRatio = Between(1.04, 1.1),
                DampingRatio = Between(0.012, 0.03),
                MountHz = Between(3, 5),
                LineAngleDegrees = line,
                EllipseRatio = Between(0.005, 0.04),
                Modes = [.. new SimulatedMachine().Modes.Select((mode, i) => mode with { FrequencyHz = flexible[i], Share = mode.Share * Between(0.7, 1.3) })],
            },
            Supply = new() { OffsetHz = Between(-0.03, 0.03), WanderHz = 0.01 },
            Sensors = pair ? [new(SensorPlace.Front, 1 + Between(-0.01, 0.01)), new(SensorPlace.Rear, 1 + Between(-0.01, 0.01))] : [],
            Sensor = new()
            {
                RateHz = strokes == 1 ? 3200 : 4000,
                RateErrorPpm = Between(-8000, 8000),
                NoiseG = Between(0.003, 0.015),
                DeckDegrees = Between(0, 6),
                TurnedDegrees = Between(-5, 5),
                SidewaysDegrees = Between(-3, 3),
            },
        };
        var sensor = scenario.Feeder.Sensor;
        scenario = scenario with
        {
            Feeder = scenario.Feeder with { Sensors = [.. scenario.Sensors.Select(place => new PlacedSensor(place.Place, [], sensor))] },
            Sensor = scenario.Sensor with { RangeG = sensor.FullScale!.Value / Gravity.Standard },
        };
        return scenario with
        {
            Magnet = StrokeScaler.Solve(
                scenario with { Faults = fault is not null && FaultTable.FromCommissioning(fault) ? [new(fault, severity)] : [] }, 1 / InternalHz),
        };
    }

    /// <summary>Makes one capture: material, voltage and the sensor's temperature vary; most end with a stop, many begin with a start.</summary>
    public static FeederScenario Capture(FeederScenario machine, ulong seed, int index, DateTimeOffset recorded, SimulatedFault? fault)
    {
        var random = new SeededRandom(seed, FirstCaptureStream + index);
        double Between(double low, double high) => low + ((high - low) * random.Uniform());
        var tray = machine.Feeder.Masses!.TrayKilograms;
        var start = Between(0.2, 0.5);
        var stop = start + Between(3.4, 4.4);
        var stops = random.Uniform() < 0.85;
        var ppm = machine.Sensor.RateErrorPpm + Between(-300, 300);
        return machine with
        {
            Seed = (seed * 1009) + (ulong)index,
            Recorded = recorded,
            DurationSeconds = stops ? stop + 1.3 : stop,
            Faults = fault is null ? [] : [fault],
            Material = new()
            {
                LoadKilograms = tray * Between(0, 0.012),
                ImpactsPerSecond = Between(0, 25),
                ImpactNewtons = tray * Between(0.5, 3),
                LumpNewtons = tray * Between(0, 0.2),
            },
            Supply = machine.Supply with { Voltage = [(0, 100 + Between(-2, 2))], On = [(start, stops ? stop : stop + 100)] },
            Sensor = machine.Sensor with { RateErrorPpm = ppm, Gain = 1 + (0.002 * random.Normal()) },
        };
    }
}
