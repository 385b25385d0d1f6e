using System.Text.Json;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Reports;

/// <summary>Writes the causes that a history points to.</summary>
internal static class CausesJson
{
    /// <summary>Writes the array <c>findings</c>, the likeliest cause first; empty where the machine is as it was.</summary>
    public static void Write(Utf8JsonWriter json, HistoryReport history)
    {
        json.WriteStartArray("findings");
        foreach (var finding in HistoryRules.Look(history))
        {
            json.WriteStartObject();
            json.WriteString("id", finding.Id);
            ReplayJson.Number(json, "confidence", finding.Confidence, 3);
            json.WriteString("words", finding.Words);
            json.WriteString("physics", finding.Physics);
            ReplayJson.Strings(json, "because", finding.Because);
            ReplayJson.Strings(json, "check_first", finding.CheckFirst);
            json.WriteString("confirm", finding.Confirm);
            json.WriteString("tell_apart", finding.TellApart);
            json.WriteStartArray("evidence");
            foreach (var reading in finding.Evidence)
            {
                json.WriteStartObject();
                json.WriteString("symptom", reading.Symptom.Id);
                ReplayJson.Number(json, "deviation", reading.Deviation, 2);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
