using System.Globalization;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Configuration;

/// <summary>The table [springs] of a feeder file: leaves clamped at both ends, working in parallel.</summary>
internal static class SpringsPart
{
    // Spring steel, 7850 kg/m³ and 190 to 215 GPa: usual handbook figures, from memory.
    private const double SteelDensity = 7850, SteelLeast = 190, SteelMost = 215;
    private const string Stack = "a stack such as [ { thickness_mm = 4.0, count = 5 } ]";

    /// <summary>Reads the springs; null where there is no such table or anything in it is wrong.</summary>
    public static SpringDescription? Read(TableReader root)
    {
        if (root.Table("springs") is not { } table)
        {
            return null;
        }

        var modulus = table.Number("modulus_gpa", 1, 1000, "GPa (steel: about 205)");
        var length = table.Number("length_mm", 5, 2000, "mm");
        var width = table.Number("width_mm", 1, 2000, "mm");
        var front = Layers(table, "front");
        var rear = Layers(table, "rear");
        var stock = table.Numbers("stock_mm", 0.05, 100, "mm");
        var most = table.Integer("max_rear_leaves", 1, 1000);
        var endurance = table.Number("endurance_stress_mpa", 1, 5000, "MPa");
        var density = table.Number("density_kg_m3", 200, 25_000, "kg/m³ (steel: 7850)");
        table.Require("modulus_gpa", "Young's modulus of the leaves in GPa");
        table.Require("length_mm", "the free length between clamps in mm");
        table.Require("width_mm", "the width of a leaf in mm");
        table.Require("front", Stack);
        table.Require("rear", Stack);
        table.Finish();
        var leaves = rear?.Sum(l => l.Count) ?? 0;
        if (most < leaves)
        {
            table.Refuse("max_rear_leaves", string.Create(
                CultureInfo.InvariantCulture, $"`springs.max_rear_leaves` is {most}, but `rear` holds {leaves} leaves; {leaves} or more was expected"));
        }

        if (modulus is null || length is null || width is null || front is null || rear is null)
        {
            return null;
        }

        return new()
        {
            Modulus = modulus.Value * 1e9,
            LengthMetres = length.Value / 1e3,
            WidthMetres = width.Value / 1e3,
            Front = front,
            Rear = rear,
            Stock = stock is null ? [] : [.. stock.Select(t => t / 1e3)],
            MaxRearLeaves = most,
            EnduranceStress = endurance * 1e6,
            Density = density ?? (modulus is >= SteelLeast and <= SteelMost ? SteelDensity : null),
        };
    }

    /// <summary>Reads a stack of leaves: a list of tables with thickness_mm and count.</summary>
    public static IReadOnlyList<LeafLayer>? Layers(TableReader table, string key)
    {
        var layers = table.Rows(key, Stack, Layer, least: 1);
        return layers is null || layers.Contains(null) ? null : [.. layers.OfType<LeafLayer>()];
    }

    private static LeafLayer? Layer(TableReader row)
    {
        var thickness = row.Number("thickness_mm", 0.05, 100, "mm");
        var count = row.Integer("count", 1, 1000);
        row.Require("thickness_mm", "the thickness of a leaf in mm");
        row.Require("count", "the number of leaves");
        return thickness is { } millimetres && count is { } leaves ? new(millimetres / 1e3, leaves) : null;
    }
}
