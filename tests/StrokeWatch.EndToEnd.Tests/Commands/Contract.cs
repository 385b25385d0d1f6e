using System.Text.Json;
using System.Text.Json.Nodes;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

/// <summary>The keys of <c>replay --json</c> that other programs rely on: each with its type, and where null may stand with which reason.</summary>
internal static class Contract
{
    private enum Kind
    {
        Text,
        Number,
        Whole,
        Flag,
        Texts,
    }

    private sealed record Key(string Name, Kind Kind, bool MayBeNull = false);

    private static readonly string[] Tables = ["capture", "feeder", "drive", "stroke", "strike"];
    private static readonly string[] Lists = ["coast_downs", "findings", "alarms", "windows"];
    private static readonly string[] RateOrigins = ["timestamps", "header", "supply", "option"];
    private static readonly string[] Verdicts = ["in-band", "low", "high", "over-stroke", "stopped", "unmeasurable"];
    private static readonly string[] Qualities = ["good", "clipped", "gap", "transient", "noisy"];

    private static readonly Key[] Capture =
    [
        new("file", Kind.Text), new("format", Kind.Text), new("samples", Kind.Whole), new("duration_s", Kind.Number), new("rate_hz", Kind.Number),
        new("rate_from", Kind.Text), new("gaps", Kind.Whole), new("missing_samples", Kind.Whole), new("clipped_samples", Kind.Whole),
    ];

    private static readonly Key[] Feeder = [new("name", Kind.Text)];

    private static readonly Key[] Drive = [new("frequency_hz", Kind.Number, true), new("sensor_clock_error_ppm", Kind.Number, true)];

    private static readonly Key[] Stroke =
    [
        new("pp_mm", Kind.Number, true), new("fundamental_pp_mm", Kind.Number, true), new("min_pp_mm", Kind.Number, true), new("max_pp_mm", Kind.Number, true),
        new("uncertainty_mm", Kind.Number, true), new("line_angle_deg", Kind.Number, true), new("ellipse_ratio", Kind.Number, true), new("verdict", Kind.Text),
    ];

    private static readonly Key[] Strike = [new("found", Kind.Flag), new("windows", Kind.Whole), new("score_max", Kind.Number, true)];

    private static readonly Key[] CoastDown =
    [
        new("start_s", Kind.Number), new("natural_frequency_hz", Kind.Number), new("damping_ratio", Kind.Number),
        new("natural_frequency_uncertainty_hz", Kind.Number),
    ];

    private static readonly Key[] Finding = [new("id", Kind.Text), new("confidence", Kind.Number), new("because", Kind.Texts), new("check_first", Kind.Texts)];

    private static readonly Key[] Alarm = [new("kind", Kind.Text), new("raised_s", Kind.Number)];

    private static readonly Key[] Window =
    [
        new("start_s", Kind.Number), new("length_s", Kind.Number), new("frequency_hz", Kind.Number, true), new("pp_mm", Kind.Number, true),
        new("uncertainty_mm", Kind.Number, true), new("verdict", Kind.Text), new("strike", Kind.Flag), new("strike_score", Kind.Number, true),
        new("quality", Kind.Text),
    ];

    /// <summary>Checks one document.</summary>
    public static void Check(JsonNode document)
    {
        foreach (var table in Tables)
        {
            Assert.True(document[table] is JsonObject, $"{table} is missing or no object");
        }

        foreach (var list in Lists)
        {
            Assert.True(document[list] is JsonArray, $"{list} is missing or no array");
        }

        Keys("capture", document["capture"]!, Capture);
        Keys("feeder", document["feeder"]!, Feeder);
        Assert.True(document["feeder"]!.AsObject().ContainsKey("model"), "feeder.model is missing");
        Keys("drive", document["drive"]!, Drive);
        Keys("stroke", document["stroke"]!, Stroke);
        Keys("strike", document["strike"]!, Strike);
        Each("coast_downs", document, CoastDown);
        Each("findings", document, Finding);
        Each("alarms", document, Alarm);
        Each("windows", document, Window);

        Assert.All(document["capture"]!["rejected_rows"]!.AsObject(), row => Assert.True(row.Value!.GetValue<long>() > 0, row.Key));
        Assert.Contains((string)document["capture"]!["rate_from"]!, RateOrigins);
        Assert.Contains((string)document["stroke"]!["verdict"]!, Verdicts);
        Assert.True(document["stroke"]!.AsObject().ContainsKey("reason"), "stroke.reason is missing");
        var strike = document["strike"]!.AsObject();
        Assert.True(strike.ContainsKey("first_s"), "strike.first_s is missing");
        Assert.Equal((bool)strike["found"]!, strike["first_s"] is not null);
        foreach (var alarm in document["alarms"]!.AsArray())
        {
            Assert.True(alarm!.AsObject().ContainsKey("cleared_s"), "alarms.cleared_s is missing");
            Assert.True(alarm["cleared_s"] is null || (double)alarm["cleared_s"]! > (double)alarm["raised_s"]!);
        }

        foreach (var window in document["windows"]!.AsArray())
        {
            Assert.Contains((string)window!["verdict"]!, Verdicts);
            Assert.Contains((string)window["quality"]!, Qualities);
        }
    }

    private static void Each(string list, JsonNode document, Key[] keys)
    {
        var at = 0;
        foreach (var entry in document[list]!.AsArray())
        {
            Keys($"{list}[{at++}]", entry!, keys);
        }
    }

    private static void Keys(string path, JsonNode table, Key[] keys)
    {
        foreach (var key in keys)
        {
            Assert.True(table.AsObject().ContainsKey(key.Name), $"{path}.{key.Name} is missing");
            var value = table[key.Name];
            if (value is null)
            {
                Assert.True(key.MayBeNull, $"{path}.{key.Name} is null");
                Assert.False(string.IsNullOrWhiteSpace((string?)table["reason"]), $"{path}.{key.Name} is null without a reason");
                continue;
            }

            Assert.True(Is(value, key.Kind), $"{path}.{key.Name} is {value.ToJsonString()}, which is no {key.Kind}");
        }
    }

    private static bool Is(JsonNode value, Kind kind) => kind switch
    {
        Kind.Text => value.GetValueKind() == JsonValueKind.String && value.GetValue<string>().Length > 0,
        Kind.Number => value.GetValueKind() == JsonValueKind.Number && double.IsFinite(value.GetValue<double>()),
        Kind.Whole => value is JsonValue number && number.TryGetValue<long>(out var whole) && whole >= 0,
        Kind.Flag => value.GetValueKind() is JsonValueKind.True or JsonValueKind.False,
        _ => value is JsonArray texts && texts.Count > 0 && texts.All(text => text!.GetValueKind() == JsonValueKind.String),
    };
}
