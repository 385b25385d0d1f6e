using System.Globalization;
using System.Text.RegularExpressions;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>Reads OpenMetrics text and fails where it breaks a rule of the specification 1.0 (from memory of it).</summary>
internal sealed partial class OpenMetrics
{
    private readonly Dictionary<string, double> samples = [];

    public OpenMetrics(string text)
    {
        Assert.EndsWith("# EOF\n", text, StringComparison.Ordinal);
        Assert.DoesNotContain('\r', text);
        var (family, type, unit) = ("", "", "");
        var families = new HashSet<string>();
        foreach (var line in text.Split('\n')[..^2])
        {
            if (Meta().Match(line) is { Success: true } meta)
            {
                var (word, name, rest) = (meta.Groups[1].Value, meta.Groups[2].Value, meta.Groups[3].Value);
                if (word == "TYPE")
                {
                    Assert.True(families.Add(name), $"{name} comes twice");
                    (family, type, unit) = (name, rest, "");
                    Assert.Contains(type, (string[])["gauge", "counter", "info"]);
                }

                Assert.Equal(family, name);
                unit = word == "UNIT" ? rest : unit;
                Assert.True(word != "UNIT" || name.EndsWith($"_{rest}", StringComparison.Ordinal), line);
                continue;
            }

            var sample = Sample().Match(line);
            Assert.True(sample.Success, line);
            Assert.Equal(family + (type == "counter" ? "_total" : type == "info" ? "_info" : ""), sample.Groups[1].Value);
            Assert.True(samples.TryAdd($"{sample.Groups[1].Value}{sample.Groups[2].Value}", double.Parse(sample.Groups[3].Value, CultureInfo.InvariantCulture)), $"{line} comes twice");
        }
    }

    /// <summary>Gives the value of the only sample of a name.</summary>
    public double Value(string name) => samples.Single(sample => sample.Key.Split('{')[0] == name).Value;

    [GeneratedRegex(@"^# (TYPE|UNIT|HELP) ([a-z_]+) (.+)$")]
    private static partial Regex Meta();

    [GeneratedRegex("""^([a-z_]+)(\{[a-z_]+="(?:[^"\\\n]|\\.)*"(?:,[a-z_]+="(?:[^"\\\n]|\\.)*")*\})? (-?[0-9.]+(?:E[+-]?[0-9]+)?)$""")]
    private static partial Regex Sample();
}
