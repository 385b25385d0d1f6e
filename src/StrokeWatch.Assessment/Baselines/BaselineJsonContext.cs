using System.Text.Json.Serialization;

namespace StrokeWatch.Assessment.Baselines;

/// <summary>The JSON form of baselines, made when the program is compiled: a native program cannot look at types.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, UseStringEnumConverter = true, RespectNullableAnnotations = true, IgnoreReadOnlyProperties = true, WriteIndented = true, NewLine = "\n")]
[JsonSerializable(typeof(BaselineHistory))]
internal sealed partial class BaselineJsonContext : JsonSerializerContext;
