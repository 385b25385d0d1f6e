using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Magnet;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Configuration.Scenarios;

/// <summary>Reads a scenario's tables other than the feeder's; what is not said keeps its default.</summary>
internal static class ScenarioTables
{
    private const double LongRun = 1e6;

    public static SimulatedMachine Machine(TableReader machine, TableReader root)
    {
        var usual = new SimulatedMachine();
        var modes = root.Rows("mode", row => new TrayMode(
            row.Number("frequency_hz", 500, 20, 20000), row.Number("damping_ratio", 0.02, 1e-4, 0.9), row.Number("share", 0.3, -10, 10),
            row.Number("angle_deg", 90, -180, 180), row.Number("side_share", 0, -10, 10)));
        return new SimulatedMachine
        {
            NaturalFrequencyHz = machine.Number("natural_frequency_hz", 2, 1000),
            TuningRatio = machine.Number("tuning_ratio", usual.TuningRatio, 0.3, 3),
            DampingRatio = machine.Number("damping_ratio", usual.DampingRatio, 1e-3, 0.5),
            MountHz = machine.Number("mount_hz", usual.MountHz, 0.5, 30),
            MountDampingRatio = machine.Number("mount_damping_ratio", usual.MountDampingRatio, 0.01, 0.9),
            LineAngleDegrees = machine.Number("line_angle_deg", usual.LineAngleDegrees, -90, 90),
            EllipseRatio = machine.Number("ellipse_ratio", usual.EllipseRatio, 0, 0.5),
            ContactSeconds = machine.Number("contact_ms", 0.5, 0.25, 5) * 1e-3,
            Restitution = machine.Number("restitution", usual.Restitution, 0.05, 1),
            Modes = root.Has("mode") ? modes : usual.Modes,
        };
    }

    public static SimulatedSupply Supply(TableReader supply, TableReader root)
    {
        var usual = new SimulatedSupply();
        var constant = supply.Number("voltage_percent", 100, 0, 200);
        var points = root.Rows("voltage", row => (At: row.Number("at_s", 0, 0, LongRun), Percent: row.Number("percent", 100, 0, 200)));
        if (points.Zip(points.Skip(1)).Any(pair => pair.Second.At <= pair.First.At))
        {
            root.Conflict("voltage", "the [[voltage]] points must come in order of time");
        }

        return new SimulatedSupply
        {
            Kind = supply.Choice("kind", "half-wave", "full-wave", "magnet-biased") switch
            {
                "half-wave" => DriveKind.HalfWave,
                "full-wave" => DriveKind.FullWave,
                "magnet-biased" => DriveKind.MagnetBiased,
                _ => null,
            },
            FiringDegrees = supply.Number("firing_deg", 0, 0, 175),
            ResistanceRatio = supply.Number("resistance_ratio", usual.ResistanceRatio, 0.01, 2),
            BiasFlux = supply.Number("bias_flux", usual.BiasFlux, 0.05, 20),
            OffsetHz = supply.Number("offset_hz", 0, -5, 5),
            WanderHz = supply.Number("wander_hz", 0, 0, 1),
            Voltage = points.Count > 0 ? points : [(0, constant)],
            On = Intervals(root, "on"),
        };
    }

    public static SimulatedStrike? Strike(TableReader root)
    {
        if (!root.Has("strike"))
        {
            return null;
        }

        var strike = root.Table("strike");
        var read = new SimulatedStrike
        {
            FromSeconds = strike.Number("from_s", 0, 0, LongRun),
            ToSeconds = strike.Number("to_s", double.PositiveInfinity, 0, double.PositiveInfinity),
            ForceShare = strike.Number("force_share", 1, 1e-4, 100),
            Every = strike.Integer("every", 1, 1, 10),
            PulseSeconds = strike.Number("pulse_ms", 0.5, 0.2, 5) * 1e-3,
            Spread = strike.Number("spread", 0, 0, 0.9),
        };
        if (read.ToSeconds <= read.FromSeconds)
        {
            strike.Conflict("to_s", "the strike's \"to_s\" must be after its \"from_s\"");
        }

        strike.Finish();
        return read;
    }

    public static SimulatedMaterial Material(TableReader material)
    {
        var usual = new SimulatedMaterial();
        return new SimulatedMaterial
        {
            LoadKilograms = material.Number("load_kg", 0, 0, 1e4),
            ImpactsPerSecond = material.Number("impacts_per_s", 0, 0, 2000),
            ImpactNewtons = material.Number("impact_n", usual.ImpactNewtons, 0, 1e6),
            ImpactSeconds = material.Number("impact_ms", 0.4, 0.1, 20) * 1e-3,
            LumpNewtons = material.Number("lump_n", 0, 0, 1e5),
            LumpHz = material.Number("lump_hz", usual.LumpHz, 0.2, 20),
        };
    }

    public static IReadOnlyList<NeighbourTone> Neighbours(TableReader root) => root.Rows("neighbour", row => new NeighbourTone(
        row.Number("frequency_hz", 24.5, 0.5, 5000), row.Number("peak_g", 0.05, 0, 50),
        row.Number("angle_deg", 90, -180, 180), row.Number("side_share", 0, -10, 10)));

    public static SimulatedAccelerometer Sensor(TableReader sensor, TableReader run, TableReader root)
    {
        var usual = new SimulatedAccelerometer();
        var rate = run.Number("rate_hz", usual.RateHz, 200, 50000);
        var offset = sensor.Numbers("offset_g", -100, 100, 3) is [var x, var y, var z] ? (x, y, z) : default;
        var density = sensor.Number("noise_ug_rthz", 0, 1e6);
        var bits = sensor.Integer("bits", usual.Bits, 0, 24);
        if (bits is > 0 and < 8)
        {
            sensor.Conflict("bits", "\"bits\" must be 0 (no steps) or 8 to 24");
        }

        return new SimulatedAccelerometer
        {
            RateHz = rate,
            RateErrorPpm = sensor.Number("rate_error_ppm", 0, -100000, 100000),
            RangeG = sensor.Number("range_g", usual.RangeG, 0.5, 1000),
            Bits = bits,
            NoiseG = sensor.Number("noise_g", density * 1e-6 * Math.Sqrt(rate / 2) ?? usual.NoiseG, 0, 10),
            BandwidthHz = sensor.Number("bandwidth_hz", 50, 20000),
            Poles = sensor.Integer("poles", usual.Poles, 0, 2),
            OffsetG = offset,
            DeckDegrees = sensor.Number("deck_deg", 0, -45, 45),
            TurnedDegrees = sensor.Number("turned_deg", 0, -180, 180),
            SidewaysDegrees = sensor.Number("sideways_deg", 0, -180, 180),
            HostTimes = sensor.Choice("times", "sensor", "host") == "host",
            TimeJitterSeconds = sensor.Number("time_jitter_us", 0, 0, 1e5) * 1e-6,
            TimeStepSeconds = sensor.Number("time_step_us", 0, 0, 1e5) * 1e-6,
            Gaps = Intervals(root, "gap"),
        };
    }

    private static List<(double From, double To)> Intervals(TableReader root, string key)
    {
        var rows = root.Rows(key, row => (From: row.Number("from_s", 0, 0, LongRun), To: row.Number("to_s", LongRun, 0, LongRun)));
        var ends = rows.Select(row => row.From).Zip(rows.Select(row => row.To)).SelectMany(pair => new[] { pair.First, pair.Second }).ToList();
        if (ends.Zip(ends.Skip(1)).Any(pair => pair.Second <= pair.First))
        {
            root.Conflict(key, $"each [[{key}]] must end after it begins, and begin after the one before has ended");
        }

        return rows;
    }
}
