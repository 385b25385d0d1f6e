using System.Text.Json.Serialization;

namespace StrokeWatch.Assessment.Baselines;

/// <summary>How a baseline came to be.</summary>
public enum BaselineOrigin
{
    /// <summary>Learned from readings of the machine while it had no alarm.</summary>
    [JsonStringEnumMemberName("learned")]
    Learned,

    /// <summary>Told by a person at commissioning.</summary>
    [JsonStringEnumMemberName("told")]
    Told,
}
