using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Csv;

/// <summary>The units of a table's columns.</summary>
internal sealed class ColumnUnits(CaptureBytes bytes, CsvTable table, CaptureOptions options, HeaderRows header, List<string> guesses)
{
    /// <summary>Gives the unit of some columns: what the user says, then the header, then the lines before the table.</summary>
    public AccelerationUnit Of(List<int> columns)
    {
        if (options.Unit is { } said)
        {
            return said;
        }

        var stated = columns.ConvertAll(header.UnitOf).Where(u => u.HasValue).Distinct().ToList();
        if (stated.Count > 1)
        {
            throw bytes.Error($"its columns are in {string.Join(" and ", stated.Select(u => AccelerationUnits.Name(u!.Value)))}; choose columns of one unit with --columns, or say --unit");
        }

        if (stated.Count == 0 && options.CountsPerG.HasValue)
        {
            return AccelerationUnit.Counts;
        }

        var unit = stated.Count == 1 ? stated[0] : table.Hints.Unit;
        if (unit == AccelerationUnit.KiloG)
        {
            guesses.Add("kg in the header was read as thousands of g; say otherwise with --unit");
        }

        return unit ?? throw bytes.Error("does not say the unit of its acceleration; say --unit g, m_s2, mm_s2, mg, kilo_g or counts");
    }

    /// <summary>Gives the factor from a unit to m/s².</summary>
    public double Scale(AccelerationUnit unit) => AccelerationUnits.Scale(unit)
        ?? (options.CountsPerG is { } counts ? Gravity.Standard / counts
            : throw bytes.Error("is in counts; say how many counts are one g with --counts-per-g"));

    /// <summary>Gives the unit of the time column.</summary>
    public TimeUnit OfTime(int column)
    {
        if (options.TimeUnit is { } said)
        {
            return said;
        }

        if (header.TimeUnitOf(column) is { } known)
        {
            return known;
        }

        var unit = TimeUnitGuess.Of(table.Sample.Values(column));
        guesses.Add($"the time column was taken to be in {TimeUnits.Name(unit)}; say otherwise with --time-unit");
        return unit;
    }
}
