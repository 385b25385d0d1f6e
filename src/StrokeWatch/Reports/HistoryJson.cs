using System.Text.Json;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Reports;

/// <summary>Writes the history of several captures: its captures in order of date, and of each feature one dated value a capture, null where that capture does not tell it.</summary>
internal static class HistoryJson
{
    /// <summary>Writes the object <c>history</c>; nothing where there is none.</summary>
    public static void Write(Utf8JsonWriter json, HistoryReport? history)
    {
        if (history is null)
        {
            return;
        }

        json.WriteStartObject("history");
        json.WriteStartArray("captures");
        foreach (var point in history.Points)
        {
            json.WriteStartObject();
            json.WriteString("file", point.Capture);
            json.WriteString("recorded", RecordedDate.Text(point.Recorded));
            json.WriteBoolean("date_assumed", point.DateAssumed);
            json.WriteNumber("steady_windows", point.Features.SteadyWindows);
            json.WriteNumber("coast_downs", point.Features.CoastDowns);
            json.WriteString("reason", point.Features.Reason);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        CausesJson.Write(json, history);
        json.WriteStartObject("features");
        foreach (var feature in FeatureTable.All.Where(feature => history.Points.Any(point => feature.Of(point.Features) is not null)))
        {
            json.WriteStartArray(feature.Name);
            foreach (var point in history.Points)
            {
                json.WriteStartObject();
                json.WriteString("recorded", RecordedDate.Text(point.Recorded));
                ReplayJson.Number(json, "value", feature.Of(point.Features), feature.Digits);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        json.WriteEndObject();
        json.WriteEndObject();
    }

    /// <summary>Writes when a capture was recorded and how that is known; null where nothing but the file's own time says so.</summary>
    public static void Date(Utf8JsonWriter json, CaptureDate? date)
    {
        json.WriteString("recorded", date is { } known ? RecordedDate.Text(known.Recorded) : null);
        json.WriteString("recorded_from", date?.From);
    }
}
