using StrokeWatch.Machine.Feeder;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Configuration.Scenarios;

/// <summary>Reads a scenario's <c>[feeder]</c> table, whose keys are those of a feeder file.</summary>
internal static class FeederTable
{
    private static readonly FeederDescription Usual = new FeederScenario().Feeder;

    /// <summary>Reads the table; what is not said is as in the usual scenario.</summary>
    public static FeederDescription Read(TableReader feeder)
    {
        var description = new FeederDescription
        {
            Name = feeder.Text("name") ?? Usual.Name,
            Model = feeder.Text("model"),
            Drive = Drive(feeder.Table("drive")),
            Band = Band(feeder.Table("stroke")),
            LineAngleDegrees = LineAngle(feeder.Table("mounting")),
            Springs = feeder.Has("springs") ? Springs(feeder.Table("springs")) : null,
            Masses = feeder.Has("masses") ? Masses(feeder.Table("masses")) : null,
            RestGapMetres = Gap(feeder.Table("air_gap")),
        };
        feeder.Finish();
        return description;
    }

    private static DriveDescription Drive(TableReader drive)
    {
        var read = new DriveDescription(
            drive.Number("supply_hz", 50, 5, 400),
            drive.Integer("strokes_per_cycle", 1, 1, 2),
            drive.Choice("frequency", "supply", "free") == "free");
        drive.Finish();
        return read;
    }

    private static StrokeBand Band(TableReader stroke)
    {
        var low = stroke.Length("low") ?? Usual.Band.Low;
        var high = stroke.Length("high") ?? Usual.Band.High;
        var limit = stroke.Length("limit") ?? Usual.Band.Limit;
        if (low.Metres >= high.Metres || high.Metres > limit.Metres)
        {
            stroke.Conflict("low", "the stroke's \"low\" must be below its \"high\", and \"high\" not above its \"limit\"");
        }

        stroke.Finish();
        return new(low, high, limit);
    }

    private static double? LineAngle(TableReader mounting)
    {
        var auto = mounting.Is("line_angle_deg", "auto");
        var angle = auto ? null : mounting.Number("line_angle_deg", -90, 90);
        mounting.Finish();
        return angle;
    }

    private static SpringDescription Springs(TableReader springs)
    {
        foreach (var key in new[] { "modulus_gpa", "length_mm", "width_mm", "rear" })
        {
            springs.Need(key);
        }

        var read = new SpringDescription
        {
            Modulus = springs.Number("modulus_gpa", 205, 1, 1000) * 1e9,
            LengthMetres = springs.Number("length_mm", 120, 10, 2000) / 1e3,
            WidthMetres = springs.Number("width_mm", 75, 5, 1000) / 1e3,
            Front = springs.Rows("front", Layer),
            Rear = springs.Rows("rear", Layer),
            Stock = [.. (springs.Numbers("stock_mm", 0.1, 50) ?? []).Select(mm => mm / 1e3)],
            MaxRearLeaves = springs.Has("max_rear_leaves") ? springs.Integer("max_rear_leaves", 1, 1, 200) : null,
            EnduranceStress = springs.Number("endurance_stress_mpa", 1, 5000) * 1e6,
        };
        springs.Finish();
        return read;
    }

    private static LeafLayer Layer(TableReader layer) =>
        new(layer.Number("thickness_mm", 4, 0.1, 50) / 1e3, layer.Integer("count", 1, 1, 200));

    private static MassDescription Masses(TableReader masses)
    {
        var read = new MassDescription(masses.Number("tray_kg", 35, 0.1, 1e5), masses.Number("body_kg", 70, 0.1, 1e5));
        masses.Finish();
        return read;
    }

    private static double? Gap(TableReader gap)
    {
        var rest = gap.Number("rest_mm", 0.05, 50) / 1e3;
        gap.Finish();
        return rest;
    }
}
