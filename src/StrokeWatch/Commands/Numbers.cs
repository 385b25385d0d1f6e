using System.CommandLine;
using System.Globalization;

namespace StrokeWatch.Commands;

/// <summary>Options that are numbers, read the same under every culture.</summary>
internal static class Numbers
{
    /// <summary>Makes an option for a positive number.</summary>
    public static Option<double?> Positive(string name, string description) => new(name)
    {
        Description = description,
        CustomParser = result =>
        {
            var text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
            if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) && value > 0)
            {
                return value;
            }

            result.AddError($"{name}: '{text}' is no number above 0; write it with a decimal point, as in {name} 3200.5");
            return null;
        },
    };
}
