using System.Text;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Csv;

/// <summary>The names and units that the lines before a table give to its columns.</summary>
internal sealed class HeaderRows
{
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
    public static string[] Cut(string line, byte separator, int columns)
    {
        var text = line.Trim(' ').TrimStart('#', '%').Trim(' ');
        var cells = CutWith(text, separator);
        if (cells.Length == columns || line.TrimStart() is not ['#' or '%', ..])
        {
            return cells;
        }

        var marked = text.Split([',', ';', '\t'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        var spaced = text.Split([' ', '\t'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        return marked.Length == columns ? marked : spaced.Length == columns ? spaced : cells;
    }

    /// <summary>Finds names and units in the lines before a table with so many columns.</summary>
    public static HeaderRows Find(IReadOnlyList<string[]> before, int columns)
    {
        var last = before.Count - 1;
        while (last >= 0 && last >= before.Count - 4 && !CouldName(before[last], columns))
        {
            last--;
        }

        if (last < 0 || last < before.Count - 4)
        {
            return new([], UnitsAbove(before, columns));
        }

        var units = UnitsAbove(before, columns);
        var row = before[last];
        if (IsUnits(row))
        {
            units = row;
            row = last > 0 && CouldName(before[last - 1], columns) ? before[last - 1] : [];
        }
        else if (last > 0 && before[last - 1].Length == row.Length && CouldName(before[last - 1], columns) && SaysUnits(row))
        {
            // Names above, "quantity - unit" below.
            units = Array.ConvertAll(row, cell => UnitText(HeaderName.Parse(cell)));
            row = before[last - 1];
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

    private static bool CouldName(string[] row, int columns) => row.Length > 0
        && Math.Abs(row.Length - columns) <= (columns > 2 ? 2 : columns > 1 ? 1 : 0)
        && row.Count(cell => cell.Any(char.IsLetter)) > row.Length / 2
        && (columns == 1 || !row[0].Contains(':', StringComparison.Ordinal));

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
    private static string[] UnitsAbove(IReadOnlyList<string[]> before, int columns)
    {
        for (var i = before.Count - 1; i >= 0; i--)
        {
            if (before[i].Length > 1 && before[i].Length <= columns + 1
                && before[i][0].Contains("unit", StringComparison.OrdinalIgnoreCase) && IsUnits(before[i][1..]))
            {
                return [string.Empty, .. before[i][1..]];
            }
        }

        return [];
    }
}
