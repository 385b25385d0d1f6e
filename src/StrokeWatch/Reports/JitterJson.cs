using System.Text.Json;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports;

/// <summary>Writes what is known of unsteady sampling.</summary>
internal static class JitterJson
{
    /// <summary>Writes it.</summary>
    public static void Write(Utf8JsonWriter json, ReplayResult result)
    {
        var (jitter, given) = (result.Report.Jitter, result.Report.Feeder.Sensor.TimingJitterSeconds);
        json.WriteStartObject("sampling_jitter");
        ReplayJson.Number(json, "rms_us", 1e6 * (given ?? jitter?.Seconds), 3);
        ReplayJson.Number(json, "uncertainty_us", 2e6 * jitter?.UncertaintySeconds, 3);
        ReplayJson.Number(json, "correction_percent", 100 * jitter?.Correction, 6);
        json.WriteString(
            "reason",
            given is not null ? "given in the feeder file: not read from the signal, not given back, carried in the uncertainty"
                : jitter is null ? result.Report.Stroke.Reason ?? "no window was asked for it"
                : jitter.Seconds is null ? "no jitter stands out of the residual; what may hide in it is carried in the uncertainty"
                : null);
        json.WriteEndObject();
    }
}
