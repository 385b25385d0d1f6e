using System.Text.Json;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;

namespace StrokeWatch.Reports;

/// <summary>Writes what stops and starts told of the feeder's own vibration.</summary>
internal static class TransientsJson
{
    /// <summary>Writes both lists.</summary>
    public static void Write(Utf8JsonWriter json, AssessmentReport report)
    {
        json.WriteStartArray("coast_downs");
        foreach (var decay in report.Decays)
        {
            json.WriteStartObject();
            ReplayJson.Number(json, "start_s", decay.StartSeconds, 6);
            Own(json, decay);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("starts");
        foreach (var start in report.Starts)
        {
            json.WriteStartObject();
            ReplayJson.Number(json, "start_s", start.StartSeconds, 6);
            Own(json, start.Decay);
            ReplayJson.Number(json, "magnet_taken_off_hz", start.Decay?.MagnetHz, 5);
            ReplayJson.Number(json, "magnet_taken_off_damping_ratio", start.Decay?.MagnetDamping, 6);
            json.WriteString("reason", start.Reason);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Own(Utf8JsonWriter json, DecayReading? decay)
    {
        ReplayJson.Number(json, "natural_frequency_hz", decay?.NaturalFrequencyHz, 5);
        ReplayJson.Number(json, "damping_ratio", decay?.DampingRatio, 6);
        ReplayJson.Number(json, "natural_frequency_uncertainty_hz", decay?.FrequencyUncertaintyHz, 6);
        ReplayJson.Number(json, "damping_ratio_uncertainty", decay?.DampingUncertainty, 6);
        ReplayJson.Number(json, "tuning_ratio", decay?.TuningRatio, 6);
        json.WriteString("side", Names.Of(decay?.Side ?? TuningSide.Unknown));
    }
}
