using StrokeWatch.Configuration.Toml;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Configuration.Scenarios;

/// <summary>A scenario's tables of what is about the machine: material, neighbours and the accelerometer; what is not said keeps its default.</summary>
internal static class SurroundingsTables
{
    /// <summary>Reads [material].</summary>
    public static SimulatedMaterial Material(TableReader material)
    {
        var usual = new SimulatedMaterial();
        return new SimulatedMaterial
        {
            LoadKilograms = material.Number("load_kg", 0, 1e4, "kg") ?? usual.LoadKilograms,
            ImpactsPerSecond = material.Number("impacts_per_s", 0, 2000) ?? usual.ImpactsPerSecond,
            ImpactNewtons = material.Number("impact_n", 0, 1e6, "N") ?? usual.ImpactNewtons,
            ImpactSeconds = material.Number("impact_ms", 0.1, 20, "ms") * 1e-3 ?? usual.ImpactSeconds,
            LumpNewtons = material.Number("lump_n", 0, 1e5, "N") ?? usual.LumpNewtons,
            LumpHz = material.Number("lump_hz", 0.2, 20, "Hz") ?? usual.LumpHz,
        };
    }

    /// <summary>Reads the [[neighbour]] tables.</summary>
    public static IReadOnlyList<NeighbourTone> Neighbours(TableReader root) =>
        root.Rows("neighbour", "a list of tables [[neighbour]] with frequency_hz and peak_g", row => new NeighbourTone(
            row.Number("frequency_hz", 0.5, 5000, "Hz") ?? 24.5,
            row.Number("peak_g", 0, 50, "g") ?? 0.05,
            row.Number("angle_deg", -180, 180) ?? 90,
            row.Number("side_share", -10, 10) ?? 0)) ?? [];

    /// <summary>Reads [sensor], its rate from [run], and the [[gap]] tables.</summary>
    public static SimulatedAccelerometer Sensor(TableReader sensor, TableReader run, TableReader root)
    {
        var usual = new SimulatedAccelerometer();
        var rate = run.Number("rate_hz", 200, 50_000, "Hz") ?? usual.RateHz;
        var density = sensor.Number("noise_ug_rthz", 0, 1e6);
        var bits = sensor.Integer("bits", 0, 24) ?? usual.Bits;
        if (bits is > 0 and < 8)
        {
            sensor.Refuse("bits", "`sensor.bits` is too few; 0 (no steps) or 8 to 24 was expected");
        }

        return new SimulatedAccelerometer
        {
            RateHz = rate,
            RateErrorPpm = sensor.Number("rate_error_ppm", -100_000, 100_000, "ppm") ?? usual.RateErrorPpm,
            RangeG = sensor.Number("range_g", 0.5, 1000, "g") ?? usual.RangeG,
            Bits = bits,
            NoiseG = sensor.Number("noise_g", 0, 10, "g") ?? density * 1e-6 * Math.Sqrt(rate / 2) ?? usual.NoiseG,
            BandwidthHz = sensor.Number("bandwidth_hz", 50, 20_000, "Hz"),
            Poles = sensor.Integer("poles", 0, 2) ?? usual.Poles,
            OffsetG = sensor.Numbers("offset_g", -100, 100, "g", count: 3) is [var x, var y, var z] ? (x, y, z) : usual.OffsetG,
            DeckDegrees = sensor.Number("deck_deg", -45, 45) ?? usual.DeckDegrees,
            TurnedDegrees = sensor.Number("turned_deg", -180, 180) ?? usual.TurnedDegrees,
            SidewaysDegrees = sensor.Number("sideways_deg", -180, 180) ?? usual.SidewaysDegrees,
            HostTimes = sensor.Choice("times", "sensor", "host") == "host",
            TimeJitterSeconds = sensor.Number("time_jitter_us", 0, 1e5, "us") * 1e-6 ?? usual.TimeJitterSeconds,
            TimeStepSeconds = sensor.Number("time_step_us", 0, 1e5, "us") * 1e-6 ?? usual.TimeStepSeconds,
            Gaps = TimeSpans.Read(root, "gap"),
        };
    }
}
