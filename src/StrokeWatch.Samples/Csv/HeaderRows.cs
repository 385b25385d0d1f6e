using System.Globalization;
using System.Text;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Csv;

/// <summary>The names and units that the lines before a table give to its columns.</summary>
internal sealed class HeaderRows
{
    /// <summary>Names stand within so many lines before the table.</summary>
    private const int NearLines = 8;

    private readonly HeaderName[] names;
    private readonly string[] units;

    private HeaderRows(HeaderName[] names, string[] units)
    {
        this.names = names;
        this.units = units;
    }

    /// <summary>Gets the names, in the order of the columns; empty where there is no header.</summary>
    public IReadOnlyList<HeaderName> Names => names;

    /// <summary>Cuts a line before the table into cells; a comment that holds the header may separate its names in another way.</summary>
    public static HeadLine Cut(string line, byte separator, int columns)
    {
        var comment = line.TrimStart() is ['#' or '%', ..];
        var text = line.Trim(' ').TrimStart('#', '%').Trim(' ');
        var cells = CutWith(text, separator);
        if (cells.Length == columns || !comment)
        {
            return new(cells, comment);
        }

        var marked = text.Split([',', ';', '\t'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        var spaced = text.Split([' ', '\t'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        return new(marked.Length == columns ? marked : spaced.Length == columns ? spaced : cells, comment);
    }

    /// <summary>Finds names and units in the lines before a table with so many columns: a row as wide as the table, or nearly.</summary>
    public static HeaderRows Find(IReadOnlyList<HeadLine> before, int columns)
    {
        var units = UnitsAbove(before, columns);
        var last = IndexOfNames(before, columns);
        if (last < 0)
        {
            return new([], units);
        }

        var row = before[last].Cells;
        var above = last > 0 && CouldName(before[last - 1], columns) ? before[last - 1].Cells : [];
        if (IsUnits(row))
        {
            (units, row) = (row, above);
        }
        else if (above.Length == row.Length && SaysUnits(row))
        {
            // Names above, "quantity - unit" below.
            units = Array.ConvertAll(row, cell => UnitText(HeaderName.Parse(cell)));
            row = above;
        }

        return new(Array.ConvertAll(row, HeaderName.Parse), units);
    }

    /// <summary>Gets the unit of acceleration stated for a column (from 0), if any.</summary>
    public AccelerationUnit? UnitOf(int column) =>
        column < names.Length && names[column].Unit is { } named ? named
        : column < units.Length && HeaderName.IsUnitCell(units[column], out var unit, out _) ? unit : null;

    /// <summary>Gets the unit of time stated for a column (from 0), if any.</summary>
    public TimeUnit? TimeUnitOf(int column) =>
        column < names.Length && names[column].Time is { } named ? named
        : column < units.Length && HeaderName.IsUnitCell(units[column], out _, out var unit) ? unit : null;

    /// <summary>Finds the column (from 0) that a user named: the whole cell, its name without unit, or a unique part of it; -1 where none is.</summary>
    public int IndexOf(string name)
    {
        var whole = Array.FindIndex(names, n => n.Text.Equals(name, StringComparison.OrdinalIgnoreCase));
        if (whole >= 0)
        {
            return whole;
        }

        var wanted = HeaderName.Parse(name).Base;
        var based = Array.FindAll(names, n => n.Base.Length > 0 && n.Base == wanted);
        if (based.Length == 0)
        {
            based = Array.FindAll(names, n => n.Text.Contains(name, StringComparison.OrdinalIgnoreCase));
        }

        return based.Length == 1 ? Array.IndexOf(names, based[0]) : -1;
    }

    private static string[] CutWith(string text, byte separator)
    {
        var cells = new List<string>();
        var walker = new Cells(Encoding.UTF8.GetBytes(text), separator);
        while (cells.Count < 4096 && walker.MoveNext())
        {
            cells.Add(Encoding.UTF8.GetString(walker.Current));
        }

        while (cells.Count > 0 && cells[^1].Length == 0)
        {
            cells.RemoveAt(cells.Count - 1);
        }

        return [.. cells];
    }

    private static int IndexOfNames(IReadOnlyList<HeadLine> before, int columns)
    {
        for (var i = before.Count - 1; i >= Math.Max(0, before.Count - NearLines); i--)
        {
            if (CouldName(before[i], columns))
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>
    /// Says whether a line could hold names, as many as there are columns or one more or less; a comment must hold just as many and name
    /// something that is known, for it could be prose.
    /// </summary>
    private static bool CouldName(HeadLine line, int columns)
    {
        var row = line.Cells;
        return row.Length >= Math.Min(columns, 2) && Math.Abs(row.Length - columns) <= (line.IsComment || columns == 1 ? 0 : 1)
            && row.Count(IsWord) > row.Length / 2
            && (!line.IsComment || Array.TrueForAll(row, cell => cell.AsSpan().IndexOfAny(':', '=') < 0))
            && (!line.IsComment || IsUnits(row) || Array.Exists(row, cell => HeaderName.Parse(cell) is var n && (n.Role != ColumnRole.Unsaid || n.Unit.HasValue)));
    }

    private static bool IsWord(string cell) => cell.Any(char.IsLetter)
        && !double.TryParse(cell.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out _);

    private static bool IsUnits(string[] row)
    {
        var known = 0;
        return Array.TrueForAll(row, cell =>
        {
            var is_ = HeaderName.IsUnitCell(cell, out var unit, out var time);
            known += unit.HasValue || time.HasValue ? 1 : 0;
            return is_;
        }) && known > 0;
    }

    private static bool SaysUnits(string[] row) => Array.TrueForAll(row, cell => UnitText(HeaderName.Parse(cell)).Length > 0);

    private static string UnitText(HeaderName name) => name.Unit is { } unit ? AccelerationUnits.Name(unit)
        : name.Time is { } time ? TimeUnits.Name(time) : string.Empty;

    /// <summary>Finds a row of units with its own label among the lines before: <c>Unit, V, lbf, g</c>.</summary>
    private static string[] UnitsAbove(IReadOnlyList<HeadLine> before, int columns)
    {
        for (var i = before.Count - 1; i >= 0; i--)
        {
            var row = before[i].Cells;
            if (row.Length > 1 && row.Length <= columns + 1
                && row[0].Contains("unit", StringComparison.OrdinalIgnoreCase) && IsUnits(row[1..]))
            {
                return [string.Empty, .. row[1..]];
            }
        }

        return [];
    }
}
