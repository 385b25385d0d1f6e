using System.CommandLine;
using System.Globalization;
using StrokeWatch.Samples.Quantities;

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

    /// <summary>Makes an option for a number within a range, ends included.</summary>
    public static Option<double?> Within(string name, string description, double least, double most) => new(name)
    {
        Description = description,
        CustomParser = result =>
        {
            var text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
            if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value >= least && value <= most)
            {
                return value;
            }

            result.AddError(string.Create(CultureInfo.InvariantCulture, $"{name}: '{text}' is no number from {least} to {most}; write it with a decimal point"));
            return null;
        },
    };

    /// <summary>Makes an option for a length above 0 with its unit.</summary>
    public static Option<Length?> Length(string name, string description) => new(name)
    {
        Description = description,
        CustomParser = result =>
        {
            var text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
            if (Samples.Quantities.Length.TryParse(text, out var length) && length.Metres > 0)
            {
                return length;
            }

            result.AddError($"{name}: '{text}' is no length above 0 with its unit mm, in or mil; write it in quotes, as in {name} \"1.600 mm\"");
            return null;
        },
    };
}
