using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Configuration;

/// <summary>The table [drive] of a feeder file.</summary>
internal static class DrivePart
{
    /// <summary>Reads the supply frequency: 10 to 500 Hz, usually 50 or 60.</summary>
    public static double? Supply(TableReader table) => table.Number("supply_hz", 10, 500, "Hz (usually 50 or 60)");

    /// <summary>Reads the strokes per cycle: 1 or 2.</summary>
    public static int? Strokes(TableReader table) => table.Integer("strokes_per_cycle", 1, 2);

    /// <summary>Reads the drive; what the file leaves out is taken from the model, and an error where that has it not either.</summary>
    public static DriveDescription? Read(TableReader root, ModelRow? model, ConfigurationErrors errors)
    {
        var table = root.Table("drive");
        if (table is null)
        {
            if (model is { SupplyHz: { } supply, StrokesPerCycle: { } strokes })
            {
                return new(supply, strokes, Free: false);
            }

            if (!root.Has("drive"))
            {
                errors.Add(0, "[drive] is missing; a table [drive] with supply_hz and strokes_per_cycle was expected");
            }

            return null;
        }

        var hz = Supply(table);
        var perCycle = Strokes(table);
        var frequency = table.Choice("frequency", "supply", "free");
        if (model?.SupplyHz is null)
        {
            table.Require("supply_hz", "the mains frequency in Hz, 50 or 60,");
        }

        if (model?.StrokesPerCycle is null)
        {
            table.Require("strokes_per_cycle", "1 (half-wave) or 2 (full-wave)");
        }

        table.Finish();
        hz ??= model?.SupplyHz;
        perCycle ??= model?.StrokesPerCycle;
        return hz is { } known && perCycle is { } count ? new(known, count, frequency == "free") : null;
    }
}
