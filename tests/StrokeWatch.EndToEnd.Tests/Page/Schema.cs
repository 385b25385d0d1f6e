using System.Text.Json.Nodes;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>Holds a document against the part of JSON Schema that the page's OpenAPI document uses; a word it does not know is a fault.</summary>
internal sealed class Schema(JsonNode document)
{
    private static readonly string[] Known = ["type", "enum", "properties", "required", "additionalProperties", "items", "format", "description", "minimum", "maximum", "default", "$ref"];

    /// <summary>Gives what is wrong, each with its place.</summary>
    public IEnumerable<string> Faults(JsonNode? value, JsonNode schema, string at = "$")
    {
        if ((string?)schema["$ref"] is { } name)
        {
            return Faults(value, document["components"]!["schemas"]![name.Split('/')[^1]]!, at);
        }

        var faults = schema.AsObject().Select(pair => pair.Key).Except(Known).Select(word => $"{at}: the schema's word {word} is not known").ToList();
        var types = schema["type"] is JsonArray several ? several.Select(one => (string)one!).ToList() : schema["type"] is { } one ? [(string)one!] : [];
        if (types.Count > 0 && !types.Exists(type => Is(value, type)))
        {
            return [.. faults, $"{at}: {value?.ToJsonString() ?? "null"} is not of type {string.Join(" or ", types)}"];
        }

        if (schema["enum"] is JsonArray words && !words.Any(word => JsonNode.DeepEquals(word, value)))
        {
            faults.Add($"{at}: {value?.ToJsonString() ?? "null"} is none of {words.ToJsonString()}");
        }

        if ((string?)schema["format"] == "date-time" && value is not null && !DateTimeOffset.TryParse((string?)value, System.Globalization.CultureInfo.InvariantCulture, out _))
        {
            faults.Add($"{at}: {value} is no instant");
        }

        if (value is JsonObject held && schema["properties"] is JsonObject properties)
        {
            faults.AddRange((schema["required"]?.AsArray() ?? []).Where(key => !held.ContainsKey((string)key!)).Select(key => $"{at}.{key} is missing"));
            faults.AddRange(held.Where(pair => !properties.ContainsKey(pair.Key)).Select(pair => $"{at}.{pair.Key} is not in the document"));
            faults.AddRange(held.Where(pair => properties.ContainsKey(pair.Key)).SelectMany(pair => Faults(pair.Value, properties[pair.Key]!, $"{at}.{pair.Key}")));
        }

        if (value is JsonArray items && schema["items"] is { } each)
        {
            faults.AddRange(items.SelectMany((item, i) => Faults(item, each, $"{at}[{i}]")));
        }

        return faults;
    }

    private static bool Is(JsonNode? value, string type) => (value?.GetValueKind(), type) switch
    {
        (null, "null") => true,
        (System.Text.Json.JsonValueKind.Object, "object") => true,
        (System.Text.Json.JsonValueKind.Array, "array") => true,
        (System.Text.Json.JsonValueKind.String, "string") => true,
        (System.Text.Json.JsonValueKind.True or System.Text.Json.JsonValueKind.False, "boolean") => true,
        (System.Text.Json.JsonValueKind.Number, "number") => true,
        (System.Text.Json.JsonValueKind.Number, "integer") => (double)value! % 1 == 0,
        _ => false,
    };
}
