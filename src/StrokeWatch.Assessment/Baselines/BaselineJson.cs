using System.Text.Json;

namespace StrokeWatch.Assessment.Baselines;

/// <summary>Writes baselines as JSON and reads them back to the last digit.</summary>
public static class BaselineJson
{
    /// <summary>Writes a history; ends with a line's end.</summary>
    public static string Write(BaselineHistory history) => JsonSerializer.Serialize(history, BaselineJsonContext.Default.BaselineHistory) + "\n";

    /// <summary>Writes one version, as it stands in a history.</summary>
    public static string Write(Baseline baseline) => Write(BaselineHistory.Empty with { Versions = [baseline] });

    /// <summary>Reads a history; null where anything is wrong.</summary>
    /// <param name="text">The JSON.</param>
    /// <param name="line">The line of the fault, from 1; 0 where it is of no one line.</param>
    /// <param name="fault">What is wrong, in one line; empty where nothing is.</param>
    public static BaselineHistory? Read(string text, out int line, out string fault)
    {
        (line, fault) = (0, "");
        try
        {
            var history = JsonSerializer.Deserialize(text, BaselineJsonContext.Default.BaselineHistory);
            fault = history is null ? "is empty; baselines were expected" : Missing(history) ?? history.Fault() ?? "";
            return fault.Length == 0 ? history : null;
        }
        catch (JsonException trouble)
        {
            line = (int)(trouble.LineNumber ?? -1) + 1;
            fault = "is not a file of baselines: " + trouble.Message.Split(" Path:")[0].ReplaceLineEndings(" ");
            return null;
        }
    }

    /// <summary>Says that a list holds nothing at a place; nullability of a list's items is not checked on reading.</summary>
    private static string? Missing(BaselineHistory history) =>
        history.Versions.Any(version => version is null || version.Features.Any(feature => feature is null)) ? "a list holds `null` where a version or a feature was expected" : null;
}
