using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Configuration;

/// <summary>The table [supply] of a feeder file: the voltage at which the stroke band holds, and how it is known.</summary>
internal static class SupplyPart
{
    private const double LeastVolts = 0.1, MostVolts = 100_000;

    /// <summary>Reads the table; null where it is not there.</summary>
    public static SupplyDescription? Read(TableReader root)
    {
        if (root.Table("supply") is not { } table)
        {
            return null;
        }

        var usual = new SupplyDescription();
        var supply = new SupplyDescription
        {
            FullVolts = table.Number("full_voltage_v", LeastVolts, MostVolts, "V"),
            EnteredVolts = table.Number("voltage_v", LeastVolts, MostVolts, "V"),
            VoltsPerUnit = table.Number("scale_v", 1e-6, 1e6, "V a unit of the channel") ?? usual.VoltsPerUnit,
            Uncertainty = table.Number("uncertainty_percent", 0, 50, "percent (k = 2)") / 100,
            Biased = table.Choice("magnet", "plain", "biased") == "biased",
        };
        if (table.Has("voltage_v"))
        {
            table.Require("full_voltage_v", "the voltage in V at which the stroke band holds");
        }

        table.Finish();
        return supply;
    }
}
