using StrokeWatch.Measurement.Supply;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Outputs.Influx;

/// <summary>Adds to a window's row the stroke that full voltage would make, worked out from what the row holds; the store does not keep it.</summary>
/// <param name="fullStroke">Gives that stroke in metres, null where it cannot be told: what full voltage is, the feeder's description knows.</param>
internal sealed class FullVoltageField(Func<WindowReading, double?> fullStroke)
{
    /// <summary>The field's name.</summary>
    public const string Name = "full_voltage_pp_mm";

    /// <summary>Gives the row with the field where it can be told, else the row as it is.</summary>
    public WaitingRow Add(WaitingRow row)
    {
        var values = row.Values.ToDictionary();
        double? Number(string column) => values.GetValueOrDefault(column) as double?;
        if (Number("supply_mains_v") is not { } mains || values.GetValueOrDefault("quality") is not string quality || values.GetValueOrDefault("motion") is not string motion)
        {
            return row;
        }

        var full = fullStroke(new()
        {
            StartSeconds = Number("start_s") ?? 0,
            LengthSeconds = Number("length_s") ?? 0,
            StrokeMetres = Number("pp_mm") / 1e3,
            Quality = StoreNames.Quality(quality),
            Motion = StoreNames.Motion(motion),
            Strike = values.GetValueOrDefault("strike") is not 0L,
            Supply = new SupplyReading
            {
                RmsVolts = Number("supply_rms_v"),
                MainsVolts = mains,
                FundamentalVolts = Number("supply_fundamental_v"),
                ConductionShare = Number("supply_conduction_share"),
                FiringDegrees = Number("supply_firing_deg"),
                RmsAlone = StoreReader.IsRmsAlone(mains, Number("supply_fundamental_v")),
            },
        });
        return full is { } metres && double.IsFinite(metres) ? row with { Values = [.. row.Values, new(Name, Math.Round(metres * 1e3, 6))] } : row;
    }
}
