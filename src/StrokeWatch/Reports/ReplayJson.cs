using System.Globalization;
using System.Text.Json;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Calibration;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Reports;

/// <summary>Writes a replay as JSON: snake_case keys that end in their unit, null with a reason for what was not measured.</summary>
internal static class ReplayJson
{
    /// <summary>A day's windows are tens of megabytes as text: they leave as they are written.</summary>
    private const int MostPending = 1 << 16;

    private static readonly JsonWriterOptions Options = new() { Indented = true };

    /// <summary>Writes one document: one replay as an object, several as an array of them.</summary>
    /// <remarks>Of several the newest carries the history of all.</remarks>
    public static void Write(Stream stream, IReadOnlyList<ReplayResult> results)
    {
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            if (results.Count == 1)
            {
                Replay(json, results[0], null);
            }
            else
            {
                json.WriteStartArray();
                var history = Histories.Of(results);
                var newest = Histories.Newest(results);
                foreach (var result in results)
                {
                    Replay(json, result, ReferenceEquals(result, newest) ? history : null);
                }

                json.WriteEndArray();
            }
        }

        stream.WriteByte((byte)'\n');
    }

    private static void Replay(Utf8JsonWriter json, ReplayResult result, HistoryReport? history)
    {
        json.WriteStartObject();
        Capture(json, result);
        json.WriteStartObject("feeder");
        json.WriteString("name", result.Report.Feeder.Name);
        json.WriteString("model", result.Report.Feeder.Model);
        json.WriteEndObject();
        Calibration(json, result.Report.Feeder.Sensor.Calibration);
        DriveJson.Write(json, result);
        Stroke(json, result);
        MountingJson.Write(json, result.Report.Mounting);
        SensorsJson.Write(json, result.Report);
        SupplyJson.Write(json, result.Report.Supply);
        Strike(json, result.Report);
        TransientsJson.Write(json, result.Report);
        Findings(json, result);
        Alarms(json, result.Report);
        Windows(json, result.Report);
        HistoryJson.Write(json, history);
        json.WriteEndObject();
    }

    private static void Capture(Utf8JsonWriter json, ReplayResult result)
    {
        json.WriteStartObject("capture");
        json.WriteString("file", result.File);
        json.WriteString("format", result.Source.Format);
        json.WriteNumber("samples", result.Counters.Samples);
        HistoryJson.Date(json, result.Date is { Assumed: false } date ? date : null);
        Number(json, "duration_s", result.DurationSeconds, 6);
        Number(json, "rate_hz", result.RateHz > 0 ? result.RateHz : null, 4);
        json.WriteString("rate_from", RateFrom(result));
        json.WriteString("time_stamps", StampUses.Name(StampUses.Of(result.Source, result.Report)));
        JitterJson.Write(json, result);
        json.WriteNumber("gaps", result.Counters.Gaps);
        json.WriteNumber("missing_samples", result.Counters.MissingSamples);
        json.WriteNumber("clipped_samples", result.Report.ClippedSamples);
        json.WriteStartObject("rejected_rows");
        foreach (var (reason, count) in result.Counters.Rejected)
        {
            json.WriteNumber(reason, count);
        }

        json.WriteEndObject();
        Strings(json, "guesses", result.Guesses);
        json.WriteEndObject();
    }

    private static string RateFrom(ReplayResult result) => result.Source.RateHz is null ? "supply" : result.Source.RateFrom switch
    {
        RateOrigin.Timestamps => "timestamps",
        RateOrigin.Option => "option",
        _ => "header",
    };

    /// <summary>Writes when and how a sensor was calibrated, or null.</summary>
    internal static void Calibration(Utf8JsonWriter json, SensorCalibration? known)
    {
        if (known is not { } calibration)
        {
            json.WriteNull("calibration");
            return;
        }

        json.WriteStartObject("calibration");
        json.WriteString("date", calibration.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        json.WriteString("method", calibration.Method);
        json.WriteEndObject();
    }

    private static void Stroke(Utf8JsonWriter json, ReplayResult result)
    {
        var stroke = result.Report.Stroke;
        json.WriteStartObject("stroke");
        Number(json, "pp_mm", stroke.Stroke * 1e3, 6);
        Number(json, "fundamental_pp_mm", stroke.Fundamental * 1e3, 6);
        Number(json, "min_pp_mm", stroke.Least * 1e3, 6);
        Number(json, "max_pp_mm", stroke.Most * 1e3, 6);
        Number(json, "uncertainty_mm", stroke.Uncertainty * 1e3, 6);
        Number(json, "at_least_pp_mm", stroke.AtLeast * 1e3, 6);
        Number(json, "line_angle_deg", stroke.LineAngleDegrees, 4);
        var told = result.Report.Feeder.LineAngleDegrees is null && stroke.LineAngleDegrees is not null;
        Number(json, "line_angle_uncertainty_deg", told ? result.Report.Mounting?.LineUncertaintyDegrees : null, 4);
        Number(json, "ellipse_ratio", stroke.EllipseRatio, 6);
        json.WriteString("verdict", Names.Of(stroke.Verdict));
        json.WriteString("reason", stroke.Reason ?? (stroke.LineAngleDegrees is null ? "one axis alone tells no line of action"
            : result.Report.Feeder.LineAngleDegrees is not null ? "line_angle_deg is given in the feeder file, its uncertainty is not" : null));
        json.WriteStartArray("uncertainty_assumptions");
        if (result.Contributions.SensitivityAssumed)
        {
            json.WriteStringValue(Assumptions.Of(result.Report.Feeder));
        }

        json.WriteEndArray();
        Budget(json, "budget", stroke.Budget, stroke.Stroke);
        SupplyJson.Stroke(json, result.Report.Supply);
        json.WriteEndObject();
    }

    /// <summary>Writes the components of a stroke's uncertainty; an empty list where there is no budget.</summary>
    internal static void Budget(Utf8JsonWriter json, string name, UncertaintyBudget? budget, double? stroke)
    {
        json.WriteStartArray(name);
        foreach (var component in budget?.Components ?? [])
        {
            json.WriteStartObject();
            json.WriteString("contribution", component.Name);
            Number(json, "standard_uncertainty_mm", component.Contribution * 1e3, 9);
            Number(json, "relative_percent", 100 * component.Contribution / stroke, 7);
            Number(json, "degrees_of_freedom", component.DegreesOfFreedom, 1);
            json.WriteString("basis", component.Basis);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Strike(Utf8JsonWriter json, AssessmentReport report)
    {
        json.WriteStartObject("strike");
        json.WriteBoolean("found", report.Strike.Found);
        Number(json, "first_s", report.Strike.FirstSeconds, 6);
        json.WriteNumber("windows", report.Strike.Windows);
        Number(json, "score_max", report.Strike.ScoreMax, 4);
        Number(json, "every", report.Strike.Every, 0);
        json.WriteNumber("judged", report.Strike.Judged);
        json.WriteNumber("possible", report.Strike.Possible);
        json.WriteString("reason", report.Strike.ScoreMax is null ? "no window could be judged for strike" : report.Strike.Open ? ReplayText.Open(report.Strike) : null);
        json.WriteEndObject();
    }

    private static void Findings(Utf8JsonWriter json, ReplayResult result)
    {
        json.WriteStartArray("findings");
        foreach (var finding in result.Findings)
        {
            json.WriteStartObject();
            json.WriteString("id", finding.Id);
            Number(json, "confidence", finding.Confidence, 3);
            Strings(json, "because", finding.Because);
            Strings(json, "check_first", finding.CheckFirst);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Alarms(Utf8JsonWriter json, AssessmentReport report)
    {
        json.WriteStartArray("alarms");
        foreach (var (raised, cleared) in Pairs(report.Transitions))
        {
            json.WriteStartObject();
            json.WriteString("kind", Names.Of(raised.Kind));
            Number(json, "raised_s", raised.AtSeconds, 6);
            Number(json, "cleared_s", cleared?.AtSeconds, 6);
            Number(json, "pp_mm", raised.StrokeMetres * 1e3, 6);
            json.WriteString("words", raised.Words);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>Pairs each raising with its clearing; one that lasts to the end has none.</summary>
    internal static IEnumerable<(AlarmTransition Raised, AlarmTransition? Cleared)> Pairs(IReadOnlyList<AlarmTransition> transitions)
    {
        for (var i = 0; i < transitions.Count; i++)
        {
            var raised = transitions[i];
            if (raised.Raised)
            {
                var cleared = transitions.Skip(i + 1).Where(t => t.Kind == raised.Kind && !t.Raised).Cast<AlarmTransition?>().FirstOrDefault();
                yield return (raised, cleared);
            }
        }
    }

    private static void Windows(Utf8JsonWriter json, AssessmentReport report)
    {
        json.WriteStartArray("windows");
        foreach (var (window, verdict) in report.Windows)
        {
            if (json.BytesPending > MostPending)
            {
                json.Flush();
            }

            json.WriteStartObject();
            Number(json, "start_s", window.StartSeconds, 6);
            Number(json, "length_s", window.LengthSeconds, 6);
            Number(json, "frequency_hz", window.FrequencyHz, 6);
            Number(json, "pp_mm", window.StrokeMetres * 1e3, 6);
            Number(json, "uncertainty_mm", window.UncertaintyMetres * 1e3, 6);
            Number(json, "at_least_pp_mm", window.AtLeastMetres * 1e3, 6);
            json.WriteString("verdict", Names.Of(verdict));
            json.WriteBoolean("strike", window.Strike);
            Number(json, "strike_score", window.StrikeScore, 4);
            json.WriteBoolean("strike_carried", window.StrikeCarried);
            json.WriteBoolean("strike_possible", window.StrikePossible);
            json.WriteString("quality", Names.Of(window.Quality));
            json.WriteString("reason", window.Reason);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>Writes a number rounded to some decimals, or null.</summary>
    internal static void Number(Utf8JsonWriter json, string name, double? value, int digits)
    {
        if (value is { } number && double.IsFinite(number))
        {
            var rounded = Math.Round(number, digits);
            if (Math.Abs(rounded) < 1e15)
            {
                // A decimal is written plainly where a small double would get an exponent.
                json.WriteNumber(name, (decimal)rounded);
            }
            else
            {
                json.WriteNumber(name, rounded);
            }
        }
        else
        {
            json.WriteNull(name);
        }
    }

    internal static void Strings(Utf8JsonWriter json, string name, IReadOnlyList<string> values)
    {
        json.WriteStartArray(name);
        foreach (var value in values)
        {
            json.WriteStringValue(value);
        }

        json.WriteEndArray();
    }
}
