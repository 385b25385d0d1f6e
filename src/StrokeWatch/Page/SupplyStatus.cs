using System.Text.Json;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Page;

/// <summary>Writes the supply's voltage as the newest window has it; null with a reason where it is not known.</summary>
internal static class SupplyStatus
{
    private const string NothingYet = "nothing has been measured since the program started";

    /// <summary>Writes the object.</summary>
    public static void Write(Utf8JsonWriter writer, BoardStatus status)
    {
        var now = status.Reading is { } last ? SupplyNow.Of(last.Window.Reading, status.Feeder) : null;
        writer.WriteStartObject("supply");
        PageJson.Number(writer, "rms_v", now?.Reading.RmsVolts, 3);
        PageJson.Number(writer, "mains_v", now?.Reading.MainsVolts, 3);
        PageJson.Number(writer, "share_of_full", now?.ShareOfFull, 5);
        PageJson.Number(writer, "phase_deg", now?.Reading.PhaseDegrees, 2);
        PageJson.Number(writer, "conduction_share", now?.Reading.ConductionShare, 4);
        PageJson.Number(writer, "firing_deg", now?.Reading.FiringDegrees, 1);
        PageJson.Length(writer, "stroke_at_full", now?.FullStroke);
        writer.WriteString("reason", now is null ? NothingYet : now.Reason);
        writer.WriteEndObject();
    }
}
