using System.Globalization;
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

    /// <summary>Reads a list of columns: <c>4</c>, <c>2,3,4</c>, <c>x=2,z=4</c>, <c>z=Acceleration</c>, <c>t=1</c>, <c>t=none</c>.</summary>
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

        var twice = choices.Where(c => c.Role != ColumnRole.Unsaid).GroupBy(c => c.Role).FirstOrDefault(g => g.Count() > 1)
            ?? choices.Where(c => c.Number.HasValue).GroupBy(c => (ColumnRole)(-c.Number!.Value)).FirstOrDefault(g => g.Count() > 1);
        if (twice is not null)
        {
            error = $"columns: {string.Join(" and ", twice)} exclude each other; name each axis and each column once";
            return false;
        }

        if (choices.Count(c => c.Role is ColumnRole.X or ColumnRole.Y or ColumnRole.Z) > 3 || choices.Count > 4)
        {
            error = "columns: at most three axes and a time column can be taken";
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
        var column = part.Trim();
        var equals = part.IndexOf('=', StringComparison.Ordinal);
        if (equals >= 0)
        {
            var left = part[..equals].Trim();
            role = left.ToLowerInvariant() switch
            {
                "x" => ColumnRole.X,
                "y" => ColumnRole.Y,
                "z" => ColumnRole.Z,
                "t" or "time" => ColumnRole.Time,
                _ => ColumnRole.Unsaid,
            };
            if (role == ColumnRole.Unsaid)
            {
                error = $"columns: '{left}' is no axis; write x, y, z or t before '='";
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

            choice = new ColumnChoice(role, number, null);
            return true;
        }

        choice = new ColumnChoice(role, null, column);
        return true;
    }
}
