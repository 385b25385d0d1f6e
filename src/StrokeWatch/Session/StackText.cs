using System.Globalization;
using System.Text.RegularExpressions;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Session;

/// <summary>A stack of leaves as a person types it and the machine book keeps it: <c>4x4.0 1x3.0</c> is four leaves of 4 mm and one of 3 mm.</summary>
internal static partial class StackText
{
    private const int MostCount = 1000;
    private const double LeastMillimetres = 0.05, MostMillimetres = 100;

    /// <summary>Writes a stack, thick leaves first, the same under every culture.</summary>
    public static string Write(IEnumerable<LeafLayer> stack) =>
        string.Join(' ', Stacks.Tidy(stack).Select(layer => string.Create(CultureInfo.InvariantCulture, $"{layer.Count}x{layer.ThicknessMetres * 1e3:0.0##}")));

    /// <summary>Reads a stack; a decimal comma, inches (<c>4x0.157in</c>) and loose spelling are understood. Null where it is none, and the trouble then says why.</summary>
    public static IReadOnlyList<LeafLayer>? Read(string text, out string? trouble)
    {
        trouble = null;
        var layers = new List<LeafLayer>();
        var at = 0;
        for (var match = Layer().Match(text); match.Success && match.Index == at; match = Layer().Match(text, at))
        {
            var thickness = double.Parse(match.Groups[2].Value.Replace(',', '.'), CultureInfo.InvariantCulture) * (match.Groups[3].Value == "in" ? 25.4 : 1);
            if (!int.TryParse(match.Groups[1].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var count) || count is < 1 or > MostCount || thickness is < LeastMillimetres or > MostMillimetres)
            {
                trouble = string.Create(CultureInfo.InvariantCulture, $"{match.Value.Trim()} is no layer of leaves: 1 to {MostCount} leaves of {LeastMillimetres} to {MostMillimetres} mm were expected");
                return null;
            }

            layers.Add(new(thickness / 1e3, count));
            at += match.Length;
            if (at >= text.Length)
            {
                return Stacks.Tidy(layers);
            }
        }

        trouble = $"\"{text}\" is no stack; leaves are written as 4x4.0 1x3.0 (four of 4 mm, one of 3 mm)";
        return null;
    }

    [GeneratedRegex(@"\G\s*([0-9]{1,5})\s*[x×X*]\s*([0-9]{1,4}(?:[.,][0-9]{1,4})?)\s*(mm|in)?(?:\s*[,;+]\s*|\s+|$)")]
    private static partial Regex Layer();
}
