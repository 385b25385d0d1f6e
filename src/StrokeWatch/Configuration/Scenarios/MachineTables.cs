using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Magnet;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Configuration.Scenarios;

/// <summary>A scenario's tables of the machine itself: what moves, what drives it and what strikes; what is not said keeps its default.</summary>
internal static class MachineTables
{
    /// <summary>Reads [machine], apart from what the magnet is scaled to, and the [[mode]] tables.</summary>
    public static SimulatedMachine Machine(TableReader machine, TableReader root)
    {
        var usual = new SimulatedMachine();
        return new SimulatedMachine
        {
            NaturalFrequencyHz = machine.Number("natural_frequency_hz", 2, 1000, "Hz"),
            TuningRatio = machine.Number("tuning_ratio", 0.3, 3) ?? usual.TuningRatio,
            DampingRatio = machine.Number("damping_ratio", 1e-3, 0.5) ?? usual.DampingRatio,
            MountHz = machine.Number("mount_hz", 0.5, 30, "Hz") ?? usual.MountHz,
            MountDampingRatio = machine.Number("mount_damping_ratio", 0.01, 0.9) ?? usual.MountDampingRatio,
            LineAngleDegrees = machine.Number("line_angle_deg", -90, 90) ?? usual.LineAngleDegrees,
            EllipseRatio = machine.Number("ellipse_ratio", 0, 0.5) ?? usual.EllipseRatio,
            ContactSeconds = machine.Number("contact_ms", 0.25, 5, "ms") * 1e-3 ?? usual.ContactSeconds,
            Restitution = machine.Number("restitution", 0.05, 1) ?? usual.Restitution,
            Modes = root.Rows("mode", "a list of tables [[mode]] with frequency_hz", Mode) ?? usual.Modes,
        };
    }

    /// <summary>Reads [supply], the [[voltage]] points and the times [[on]].</summary>
    public static SimulatedSupply Supply(TableReader supply, TableReader root)
    {
        var usual = new SimulatedSupply();
        var constant = supply.Number("voltage_percent", 0, 200, "percent") ?? 100;
        var points = root.Rows("voltage", "a list of tables [[voltage]] with at_s and percent", row => (
            At: row.Number("at_s", 0, TimeSpans.LongRun, "s") ?? 0, Percent: row.Number("percent", 0, 200, "percent") ?? 100)) ?? [];
        if (points.Zip(points.Skip(1)).Any(pair => pair.Second.At <= pair.First.At))
        {
            root.Refuse("voltage", "the [[voltage]] points are not in the order of time; each at_s above the one before was expected");
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
            FiringDegrees = supply.Number("firing_deg", 0, 175) ?? usual.FiringDegrees,
            ResistanceRatio = supply.Number("resistance_ratio", 0.01, 2) ?? usual.ResistanceRatio,
            BiasFlux = supply.Number("bias_flux", 0.05, 20) ?? usual.BiasFlux,
            OffsetHz = supply.Number("offset_hz", -5, 5, "Hz") ?? usual.OffsetHz,
            WanderHz = supply.Number("wander_hz", 0, 1, "Hz") ?? usual.WanderHz,
            Voltage = points.Count > 0 ? points : [(0, constant)],
            On = TimeSpans.Read(root, "on"),
        };
    }

    /// <summary>Reads [supply_channel]; null where there is no such table.</summary>
    public static SimulatedSupplyChannel? SupplyChannel(TableReader root)
    {
        if (root.Table("supply_channel") is not { } table)
        {
            return null;
        }

        var usual = new SimulatedSupplyChannel();
        var channel = new SimulatedSupplyChannel
        {
            FullVolts = table.Number("full_voltage_v", 0.1, 100_000, "V") ?? usual.FullVolts,
            AtCoil = table.Choice("at", "line", "coil") == "coil",
            NoiseVolts = table.Number("noise_v", 0, 10_000, "V") ?? usual.NoiseVolts,
            VoltsPerUnit = table.Number("scale_v", 1e-6, 1e6, "V a unit of the channel") ?? usual.VoltsPerUnit,
        };
        table.Finish();
        return channel;
    }

    /// <summary>Reads [strike]; null where there is no such table.</summary>
    public static SimulatedStrike? Strike(TableReader root)
    {
        if (root.Table("strike") is not { } strike)
        {
            return null;
        }

        var usual = new SimulatedStrike();
        var read = new SimulatedStrike
        {
            FromSeconds = strike.Number("from_s", 0, TimeSpans.LongRun, "s") ?? usual.FromSeconds,
            ToSeconds = strike.Number("to_s", 0, TimeSpans.LongRun, "s") ?? usual.ToSeconds,
            ForceShare = strike.Number("force_share", 1e-4, 100) ?? usual.ForceShare,
            Every = strike.Integer("every", 1, 10) ?? usual.Every,
            PulseSeconds = strike.Number("pulse_ms", 0.2, 5, "ms") * 1e-3 ?? usual.PulseSeconds,
            Spread = strike.Number("spread", 0, 0.9) ?? usual.Spread,
        };
        if (read.ToSeconds <= read.FromSeconds)
        {
            strike.Refuse("to_s", "`strike.to_s` is not after `from_s`; from_s < to_s was expected");
        }

        strike.Finish();
        return read;
    }

    private static TrayMode Mode(TableReader row) => new(
        row.Number("frequency_hz", 20, 20_000, "Hz") ?? 500,
        row.Number("damping_ratio", 1e-4, 0.9) ?? 0.02,
        row.Number("share", -10, 10) ?? 0.3,
        row.Number("angle_deg", -180, 180) ?? 90,
        row.Number("side_share", -10, 10) ?? 0);
}
