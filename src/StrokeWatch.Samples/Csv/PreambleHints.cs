using System.Globalization;
using System.Text.RegularExpressions;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Csv;

/// <summary>What the lines around a table say of its rate and unit.</summary>
internal sealed partial class PreambleHints
{
    /// <summary>Gets the rate in Hz that was last stated.</summary>
    public double? RateHz { get; private set; }

    /// <summary>Gets the digits of the step from which the rate was worked out; null where the rate itself is stated.</summary>
    public string? StepText { get; private set; }

    /// <summary>Gets the unit that was last stated.</summary>
    public AccelerationUnit? Unit { get; private set; }

    /// <summary>Gets when the first sample was taken, as first stated.</summary>
    public DateTimeOffset? Recorded { get; private set; }

    /// <summary>Looks at a line of text.</summary>
    public void Feed(string line)
    {
        if (line.Length > 4096)
        {
            return;
        }

        if (Rate().Match(line) is { Success: true } rate && Number(rate) is { } hertz)
        {
            var scale = (rate.Groups["unit"].Value + rate.Groups["before"].Value).ToLowerInvariant() switch
            {
                "khz" or "ksps" => 1e3,
                "mhz" => 1e6,
                _ => 1,
            };
            (RateHz, StepText) = (hertz * scale, null);
        }
        else if (Step().Match(line) is { Success: true } step && Number(step) is { } length)
        {
            var unit = TimeUnits.TryParse(step.Groups["unit"].Value + step.Groups["before"].Value, out var named) ? named : TimeUnit.Seconds;
            (RateHz, StepText) = (1 / (length * TimeUnits.Seconds(unit)), step.Groups["number"].Value);
        }

        if (Recorded is null && RecordedLine().Match(line) is { Success: true } when)
        {
            Recorded = RecordedDate.Parse(when.Groups["date"].Value);
        }

        if (UnitLine().Match(line) is { Success: true } match && AccelerationUnits.TryParse(match.Groups["unit"].Value, out var stated))
        {
            Unit = stated;
        }
    }

    private static double? Number(Match match)
    {
        var text = match.Groups["number"].Value;
        if (match.Groups["mark"].Value.Contains(',', StringComparison.Ordinal))
        {
            text = text.Split(',')[0];
        }

        return double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
            && double.IsFinite(value) && value > 0 && double.IsFinite(1 / value) ? value : null;
    }

    private const string Value = @"\s*(?:[\[(]\s*(?<before>[a-zµμ/]+)\s*[\])]\s*)?""?(?<mark>[\s:=,;]+)""?(?<number>[-+]?\d*[.,]?\d+(?:e[-+]?\d+)?)\s*(?<unit>[a-zµμ/]*)";

    [GeneratedRegex(@"(?:^[#;%/\s""]*(?:rate|frequency)|(?<![a-z])(?:rate_hz|sampl(?:e|ing)[ _-]?(?:rate|freq(?:uency)?)(?:_hz)?|fs|f_s|odr))(?![a-z])" + Value, RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Rate();

    [GeneratedRegex(@"(?<![a-z])(?:delta[ _]?[xt]|dt|sampl(?:e|ing)[ _-]?(?:interval|period|time|step)(?:_s)?|time[ _-]?step|step_s|[xt][ _-]?increment)(?![a-z])" + Value, RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Step();

    [GeneratedRegex(@"^[#;%/\s""]*recorded(?![a-z_])[\s:=,;""]+(?<date>\d[-\d:.T +Z]*)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex RecordedLine();

    [GeneratedRegex(@"(?<![a-z])(?:acceleration[ _-]?)?units?(?![a-z])[\s:=,;""\[(]+(?<unit>[^\s,;""\])]+)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex UnitLine();
}
