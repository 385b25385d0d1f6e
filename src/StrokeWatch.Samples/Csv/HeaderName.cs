using System.Text.RegularExpressions;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Csv;

/// <summary>A cell of a header row: what column it names, and in which unit.</summary>
/// <param name="Text">The cell as it stands.</param>
/// <param name="Base">The name without its unit, in lower case, words joined by underscores.</param>
/// <param name="Role">Time or an axis, where the name says so.</param>
/// <param name="Unit">The unit of acceleration it states.</param>
/// <param name="Time">The unit of time it states.</param>
internal sealed partial record HeaderName(string Text, string Base, ColumnRole Role, AccelerationUnit? Unit, TimeUnit? Time)
{
    private static readonly string[] Suffixes =
    [
        "_mm_s2", "_m_s2", "_mm/s2", "_m/s2", "_mm/s^2", "_m/s^2", "_mm/s²", "_m/s²", "_kilo_g", "_milli_g", "_counts", "_count", "_raw", "_lsb",
        "_seconds", "_milliseconds", "_microseconds", "_nanoseconds", "_millis", "_micros", "_msec", "_usec", "_nsec", "_sec",
        "_mg", "_kg", "_ms", "_us", "_µs", "_μs", "_ns", "_g", "_s",
    ];

    /// <summary>Gets the place of the sensor, where the name says both that and an axis: <c>front_x</c>, <c>body_acc_z</c>, <c>y_rear_left</c>.</summary>
    public SensorPlace? Place { get; init; }

    /// <summary>Gets whether the name is that of a row number.</summary>
    public bool IsRowNumber => Base is "index" or "idx" or "sample" or "samples" or "sample_no" or "sample_number" or "row" or "no" or "nr" or "n"
        or "number" or "count" or "counter" or "seq" or "sequence" or "line" or "id" or "#";

    /// <summary>Gets whether the name says acceleration without an axis.</summary>
    public bool IsAcceleration => Base.Contains("acc", StringComparison.Ordinal) || Base.Contains("vib", StringComparison.Ordinal);

    /// <summary>Reads a header cell.</summary>
    public static HeaderName Parse(string cell)
    {
        var text = cell.Trim().Trim('"').Trim().TrimStart('#').Trim();
        var (rest, unitText) = SplitUnit(text);
        AccelerationUnit? unit = AccelerationUnits.TryParse(unitText, out var a) ? a : null;
        TimeUnit? time = TimeUnits.TryParse(unitText, out var t) ? t : null;
        var name = Join(rest);
        if (unit is null && time is null && TimeUnits.TryParse(name, out t) && name.Length > 1)
        {
            return new(text, "time", ColumnRole.Time, null, t);
        }

        if (unit is null && name.Length > 0 && name is not ("count" or "counts") && AccelerationUnits.TryParse(text, out a))
        {
            return new(text, "acceleration", ColumnRole.Unsaid, a, null);
        }

        if (PlaceName().Match(name) is { Success: true } placed && SensorPlaces.TryParse(placed.Groups["place"].Value.Replace("_", "", StringComparison.Ordinal) switch
        {
            "frontleft" => "front-left",
            "frontright" => "front-right",
            "rearleft" => "rear-left",
            "rearright" => "rear-right",
            var one => one,
        }, out var place) && RoleOf(placed.Groups["rest"].Value) is > ColumnRole.Time and var axis)
        {
            return new(text, name, axis, unit, null) { Place = place };
        }

        var role = RoleOf(name);
        return new(text, name, role, role == ColumnRole.Time ? null : unit, role == ColumnRole.Time ? time : null);
    }

    /// <summary>Says whether a cell of a row of units is a unit, or at least a short mark that could be one.</summary>
    public static bool IsUnitCell(string cell, out AccelerationUnit? unit, out TimeUnit? time)
    {
        var text = cell.Trim().Trim('"').Trim().TrimStart('#', '(', '[').TrimEnd(')', ']').Trim();
        unit = AccelerationUnits.TryParse(text, out var a) ? a : null;
        time = unit is null && TimeUnits.TryParse(text, out var t) ? t : null;
        return unit.HasValue || time.HasValue || OtherUnit().IsMatch(text);
    }

    private static (string Name, string Unit) SplitUnit(string text)
    {
        var bracket = Bracket().Match(text);
        if (bracket.Success)
        {
            text = text[..bracket.Index].Trim();
            var inside = bracket.Groups[1].Value.Trim();
            if (IsUnit(inside))
            {
                return (text, inside);
            }
        }

        foreach (var mark in (ReadOnlySpan<string>)[" - ", " / ", " in "])
        {
            var at = text.LastIndexOf(mark, StringComparison.Ordinal);
            if (at > 0 && IsUnit(text[(at + mark.Length)..].Trim('(', ')', ' ')))
            {
                return (text[..at], text[(at + mark.Length)..].Trim('(', ')', ' '));
            }
        }

        var joined = text.ToLowerInvariant().Replace(' ', '_');
        foreach (var suffix in Suffixes)
        {
            if (joined.Length > suffix.Length && joined.EndsWith(suffix, StringComparison.Ordinal))
            {
                return (text[..^suffix.Length], suffix[1..]);
            }
        }

        return (text, string.Empty);
    }

    private static bool IsUnit(string text) => AccelerationUnits.TryParse(text, out _) || TimeUnits.TryParse(text, out _);

    private static string Join(string text) => Separators().Replace(text.ToLowerInvariant().Trim(), "_").Trim('_');

    private static ColumnRole RoleOf(string name)
    {
        if (TimeName().IsMatch(name))
        {
            return ColumnRole.Time;
        }

        var axis = AxisName().Match(name);
        return !axis.Success ? ColumnRole.Unsaid : axis.Groups["axis"].Value[0] switch
        {
            'x' => ColumnRole.X,
            'y' => ColumnRole.Y,
            _ => ColumnRole.Z,
        };
    }

    [GeneratedRegex(@"\s*[\[({]([^\[\](){}]*(?:\([^()]*\))?[^\[\](){}]*)[\])}]\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex Bracket();

    [GeneratedRegex(@"[\s_\-.:]+", RegexOptions.CultureInvariant)]
    private static partial Regex Separators();

    [GeneratedRegex(@"^(?:t|ts|time|times|timestamps?|time_?stamp|datetime|date_time|elapsed|elapsed_time|time_elapsed|rel_time|relative_time|epoch|utc|unix_time)$", RegexOptions.CultureInvariant)]
    private static partial Regex TimeName();

    [GeneratedRegex(@"^(?:(?:a|acc|accel|acceleration|accelerometer|raw|sensor|ch|channel|axis|vib|vibration)_?)*(?<axis>[xyz])(?:_?(?:a|acc|accel|acceleration|axis|direction|dir))*$", RegexOptions.CultureInvariant)]
    private static partial Regex AxisName();

    [GeneratedRegex(@"^(?:(?:a|acc|accel|acceleration|accelerometer|sensor|vib|vibration)_)*(?<place>(?:front|rear)_?(?:left|right)|front|rear|left|right|body)_(?<rest>.+)$|^(?<rest>.+)_(?<place>(?:front|rear)_?(?:left|right)|front|rear|left|right|body)$", RegexOptions.CultureInvariant)]
    private static partial Regex PlaceName();

    [GeneratedRegex(@"^(?:-|none|k?hz|m?v|volts?|m?a|amps?|k?n|newtons?|lbf?|pounds|m?pa|bar|psi|k|°?[cf]|%|rpm|deg|rad|mm|m|in|mm/s|m/s|w|counts?)?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex OtherUnit();
}
