using System.Text.Json;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Reports;

/// <summary>Writes the supply and the stroke at full voltage as JSON; nothing where no voltage was captured and the feeder file says nothing of it.</summary>
internal static class SupplyJson
{
    /// <summary>Writes the keys that the stroke gains.</summary>
    public static void Stroke(Utf8JsonWriter json, SupplySummary? supply)
    {
        if (supply is null)
        {
            return;
        }

        ReplayJson.Number(json, "full_voltage_pp_mm", supply.FullStroke * 1e3, 6);
        ReplayJson.Number(json, "full_voltage_uncertainty_mm", supply.FullUncertainty * 1e3, 6);
        json.WriteString("full_voltage_verdict", supply.FullVerdict is { } verdict ? Names.Of(verdict) : null);
        ReplayJson.Budget(json, "full_voltage_budget", supply.Budget, supply.FullStroke);
    }

    /// <summary>Writes the object <c>supply</c>.</summary>
    public static void Write(Utf8JsonWriter json, SupplySummary? supply)
    {
        if (supply is null)
        {
            return;
        }

        json.WriteStartObject("supply");
        ReplayJson.Number(json, "voltage_v", supply.Volts, 4);
        json.WriteString("voltage_from", supply.Captured ? "channel" : supply.Volts is null ? null : "entered");
        ReplayJson.Number(json, "mains_voltage_v", supply.MainsVolts, 4);
        ReplayJson.Number(json, "share_of_full", supply.ShareOfFull, 6);
        ReplayJson.Number(json, "phase_deg", supply.PhaseDegrees, 3);
        ReplayJson.Number(json, "phase_uncertainty_deg", supply.PhaseUncertaintyDegrees, 3);
        ReplayJson.Number(json, "conduction_share", supply.ConductionShare, 4);
        ReplayJson.Number(json, "firing_angle_deg", supply.FiringDegrees, 2);
        ReplayJson.Number(json, "firing_angle_uncertainty_deg", supply.FiringUncertaintyDegrees, 2);
        json.WriteString("words", supply.Words);
        json.WriteString("reason", supply.Reason);
        json.WriteEndObject();
    }
}
