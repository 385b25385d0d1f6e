using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Captures;

/// <summary>What the user says of a capture; whatever is said here wins over the file.</summary>
public sealed record CaptureOptions
{
    /// <summary>Gets the rate in Hz, above 0.</summary>
    public double? RateHz { get; init; }

    /// <summary>Gets the unit of the acceleration columns.</summary>
    public AccelerationUnit? Unit { get; init; }

    /// <summary>Gets the columns (CSV) or channels (WAV) to take; null where the file decides.</summary>
    public IReadOnlyList<ColumnChoice>? Columns { get; init; }

    /// <summary>Gets how many lines to pass over before a table is looked for, 0 or more.</summary>
    public int? SkipRows { get; init; }

    /// <summary>Gets the sensor's full scale in g, above 0: what the largest integer of a WAV means, and where clipping begins.</summary>
    public double? FullScaleG { get; init; }

    /// <summary>Gets the converter counts in one g, above 0.</summary>
    public double? CountsPerG { get; init; }

    /// <summary>Gets the unit of the time column.</summary>
    public TimeUnit? TimeUnit { get; init; }

    /// <summary>Gets the sensors whose samples are wanted, in this order, each place once; empty where the capture has one sensor.</summary>
    public IReadOnlyList<SensorChoice> Sensors { get; init; } = [];

    /// <summary>Gets the column (CSV) or channel (WAV), from 1, that holds the supply's voltage; null where only the file may say.</summary>
    public int? SupplyChannel { get; init; }

    /// <summary>Reads a list of columns: <c>4</c>, <c>2,3,4</c>, <c>x=2,z=4</c>, <c>z=Acceleration</c>, <c>t=1</c>, <c>t=none</c>, <c>front.x=2,rear.x=5</c>.</summary>
    /// <param name="text">The list, separated by commas.</param>
    /// <param name="columns">The choices; empty where the text is wrong.</param>
    /// <param name="error">One line that says what is wrong; null where nothing is.</param>
    public static bool TryParseColumns(string? text, out IReadOnlyList<ColumnChoice> columns, out string? error)
    {
        var choices = new List<ColumnChoice>();
        columns = [];
        error = null;
        foreach (var part in (text ?? string.Empty).Split(','))
        {
            if (!TryParseColumn(part, out var choice, out error))
            {
                return false;
            }

            choices.Add(choice);
        }

        var twice = choices.Where(c => c.Role != ColumnRole.Unsaid).GroupBy(c => (c.Place, (int)c.Role)).FirstOrDefault(g => g.Count() > 1)
            ?? choices.Where(c => c.Number.HasValue).GroupBy(c => ((SensorPlace?)null, -c.Number!.Value)).FirstOrDefault(g => g.Count() > 1);
        if (twice is not null)
        {
            error = $"columns: {string.Join(" and ", twice)} exclude each other; name each axis and each column once";
            return false;
        }

        var single = choices.FindAll(c => c.Place is null);
        if (single.Count(c => c.Role is ColumnRole.X or ColumnRole.Y or ColumnRole.Z) > 3 || single.Count > 4
            || choices.Where(c => c.Place is not null).GroupBy(c => c.Place).Any(g => g.Count() > 3))
        {
            error = "columns: at most three axes of a sensor and a time column can be taken; of several sensors write front.x=2,rear.x=5";
            return false;
        }

        columns = choices;
        return true;
    }

    private static bool TryParseColumn(string part, out ColumnChoice choice, out string? error)
    {
        choice = new ColumnChoice(ColumnRole.Unsaid, null, null);
        error = null;
        var role = ColumnRole.Unsaid;
        SensorPlace? of = null;
        var column = part.Trim();
        var equals = part.IndexOf('=', StringComparison.Ordinal);
        if (equals >= 0)
        {
            var left = part[..equals].Trim();
            var dot = left.LastIndexOf('.');
            SensorPlace? whole = SensorPlaces.TryParse(left, out var place) ? place : null;
            of = whole ?? (dot > 0 && SensorPlaces.TryParse(left[..dot], out place) ? place : null);
            role = RoleOf(of is null ? left : left[(dot + 1)..]);
            if (whole is null && (role == ColumnRole.Unsaid || (of is not null && role == ColumnRole.Time)))
            {
                error = $"columns: '{left}' is no axis; write x, y, z or t before '=', and of several sensors the place before the axis, as in front.x=2";
                return false;
            }

            column = part[(equals + 1)..].Trim();
        }

        if (column.Length == 0)
        {
            error = "columns: a column is missing; write numbers from 1 or names, as in x=2,z=4";
            return false;
        }

        if (role == ColumnRole.Time && column.Equals("none", StringComparison.OrdinalIgnoreCase))
        {
            choice = new ColumnChoice(role, null, null);
            return true;
        }

        if (int.TryParse(column, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number))
        {
            if (number is < 1 or > 10_000)
            {
                error = $"columns: there is no column {number.ToString(CultureInfo.InvariantCulture)}; columns count from 1";
                return false;
            }

            choice = new ColumnChoice(role, number, null) { Place = of };
            return true;
        }

        choice = new ColumnChoice(role, null, column) { Place = of };
        return true;
    }

    private static ColumnRole RoleOf(string axis) => axis.ToLowerInvariant() switch
    {
        "x" => ColumnRole.X,
        "y" => ColumnRole.Y,
        "z" => ColumnRole.Z,
        "t" or "time" => ColumnRole.Time,
        _ => ColumnRole.Unsaid,
    };
}
