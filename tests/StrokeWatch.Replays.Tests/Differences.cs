using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace StrokeWatch.Replays.Tests;

/// <summary>
/// What differs between two JSON documents: structure and strings exactly, numbers by a relative tolerance, so that the last digit of another
/// processor's sine does not count.
/// </summary>
internal static class Differences
{
    private const double Relative = 1e-6;

    /// <summary>One unit of the last digit written, by key: a value on the edge may round either way.</summary>
    private static readonly Dictionary<string, double> LastDigit = new()
    {
        ["sensor_clock_error_ppm"] = 1e-2,
        ["confidence"] = 1e-3,
        ["rate_hz"] = 1e-4,
        ["line_angle_deg"] = 1e-4,
        ["line_angle_uncertainty_deg"] = 1e-4,
        ["line_uncertainty_deg"] = 1e-4,
        ["measured_line_angle_deg"] = 1e-4,
        ["out_of_plane_deg"] = 1e-4,
        ["tilt_deg"] = 1e-4,
        ["tilt_uncertainty_deg"] = 1e-4,
        ["drive_angle_deg"] = 1e-4,
        ["drive_angle_uncertainty_deg"] = 1e-4,
        ["gravity_m_s2"] = 1e-5,
        ["gravity_xyz_m_s2"] = 1e-5,
        ["ellipse_normal_xyz"] = 1e-4,
        ["score_max"] = 1e-4,
        ["strike_score"] = 1e-4,
        ["natural_frequency_hz"] = 1e-5,
    };

    private const double OtherLastDigit = 1e-6;

    /// <summary>Gives the differences, a line each.</summary>
    public static IReadOnlyList<string> Between(JsonNode? golden, JsonNode? now)
    {
        var found = new List<string>();
        Compare("", "", golden, now, found);
        return found;
    }

    private static void Compare(string path, string key, JsonNode? golden, JsonNode? now, List<string> found)
    {
        switch (golden, now)
        {
            case (JsonObject a, JsonObject b):
                foreach (var name in a.Select(p => p.Key).Union(b.Select(p => p.Key)))
                {
                    if (!a.ContainsKey(name) || !b.ContainsKey(name))
                    {
                        found.Add($"{path}.{name}: only in the {(a.ContainsKey(name) ? "golden output" : "new one")}");
                        continue;
                    }

                    Compare($"{path}.{name}", name, a[name], b[name], found);
                }

                break;
            case (JsonArray a, JsonArray b):
                if (a.Count != b.Count)
                {
                    found.Add($"{path}: {a.Count} entries and {b.Count}");
                }

                for (var i = 0; i < Math.Min(a.Count, b.Count); i++)
                {
                    Compare($"{path}[{i}]", key, a[i], b[i], found);
                }

                break;
            default:
                if (!Same(key, golden, now))
                {
                    found.Add($"{path}: {Shown(golden)} and {Shown(now)}");
                }

                break;
        }
    }

    private static bool Same(string key, JsonNode? golden, JsonNode? now)
    {
        if (golden?.GetValueKind() != JsonValueKind.Number || now?.GetValueKind() != JsonValueKind.Number)
        {
            return JsonNode.DeepEquals(golden, now);
        }

        var (a, b) = (golden.GetValue<double>(), now.GetValue<double>());
        var whole = a == Math.Round(a) && b == Math.Round(b);
        return Math.Abs(a - b) <= (whole ? 0 : Math.Max(Relative * Math.Abs(a), 1.01 * LastDigit.GetValueOrDefault(key, OtherLastDigit)));
    }

    private static string Shown(JsonNode? node) => node switch
    {
        null => "null",
        JsonValue value when value.TryGetValue<double>(out var number) => number.ToString("R", CultureInfo.InvariantCulture),
        _ => node.ToJsonString(),
    };
}
