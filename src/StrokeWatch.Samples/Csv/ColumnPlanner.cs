using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Csv;

/// <summary>Decides which columns are taken: what the user says, then what the header says, then the likeliest, which is reported as a guess.</summary>
internal sealed class ColumnPlanner
{
    private readonly CaptureBytes bytes;
    private readonly CsvTable table;
    private readonly CaptureOptions options;
    private readonly HeaderRows header;
    private readonly List<string> guesses;
    private readonly ColumnUnits units;
    private readonly int supply;

    /// <summary>Makes a planner; guesses are added to the list.</summary>
    public ColumnPlanner(CaptureBytes bytes, CsvTable table, CaptureOptions options, List<string> guesses)
    {
        this.bytes = bytes;
        this.table = table;
        this.options = options;
        this.guesses = guesses;
        header = HeaderRows.Find(table.Before, table.Columns);
        units = new(bytes, table, options, header, guesses);
        supply = SupplyColumn.Find(table, options, header, guesses);
        if (header.Names.Count > 0 && header.Names.Count != table.Columns)
        {
            guesses.Add(Text($"the header has {header.Names.Count} names over {table.Columns} columns; they were taken from the left"));
        }
    }

    /// <summary>Makes the plan; throws with one line where the user must say more.</summary>
    public ColumnPlan Plan()
    {
        if (options.Sensors.Count > 0)
        {
            return PlanOfSeveral();
        }

        SensorChoice.Single(options, bytes.Error);
        var chosen = Chosen(options.Columns);
        var time = TimeColumn(chosen);
        var axes = chosen.Where(c => c.Role != ColumnRole.Time && c.Column != time).ToList();
        if (axes.Count == 0)
        {
            axes = FindAxes(time);
        }

        AssignAxes(axes);
        Check(axes);
        return Made(time, axes, units.Of(axes.ConvertAll(a => a.Column)));
    }

    private ColumnPlan PlanOfSeveral()
    {
        var sensors = SensorChoice.Of(options, bytes.Error);
        List<List<(ColumnRole Role, int Column)>> chosen = [.. sensors.Select(ColumnsOf)];
        var time = TimeColumn([.. Chosen(options.Columns?.Where(c => c.Role == ColumnRole.Time)), .. chosen.SelectMany(c => c)]);
        chosen.ForEach(AssignAxes);
        chosen.ForEach(Check);
        List<(ColumnRole Role, int Column)> all = [.. chosen.SelectMany(axes => axes)];
        if (all.GroupBy(a => a.Column).FirstOrDefault(g => g.Count() > 1) is { Key: var twice })
        {
            throw bytes.Error(Text($"column {twice + 1} is taken for two sensors; name each column once ({List()})"));
        }

        List<AccelerationUnit> stated = [.. chosen.Select(axes => units.Of(axes.ConvertAll(a => a.Column)))];
        return Made(time, all, stated[0]) with
        {
            Places = [.. sensors.SelectMany((sensor, i) => Enumerable.Repeat(sensor.Place, chosen[i].Count))],
            Scales = [.. stated.SelectMany((unit, i) => Enumerable.Repeat(units.Scale(unit), chosen[i].Count))],
        };
    }

    private List<(ColumnRole Role, int Column)> ColumnsOf(SensorChoice sensor)
    {
        var columns = Chosen(sensor.Columns);
        if (columns.Count == 0)
        {
            columns.AddRange(Enumerable.Range(0, header.Names.Count).Where(i => i < table.Columns && header.Names[i].Place == sensor.Place).Select(i => (RoleOf(i), i)));
        }

        var name = SensorPlaces.Name(sensor.Place);
        return columns.Count > 0 ? columns : throw bytes.Error(
            $"no column is named after the sensor {name} that the feeder file lists, as in {name}_x_g; say which are its own with columns = [\"…\"] in [[sensors]], or --columns {name}.x=2 ({List()})");
    }

    private List<(ColumnRole Role, int Column)> Chosen(IEnumerable<ColumnChoice>? choices) => choices?.Where(c => !c.IsNoTime).Select(c => (c.Role, Find(c))).ToList() ?? [];

    private void Check(List<(ColumnRole Role, int Column)> axes)
    {
        if (axes.GroupBy(a => a.Role).Any(g => g.Count() > 1) || axes.GroupBy(a => a.Column).Any(g => g.Count() > 1))
        {
            throw bytes.Error($"two of the chosen columns are the same, or stand for the same axis; say which is which, as in --columns x=2,z=4 ({List()})");
        }

        foreach (var (_, column) in axes)
        {
            if (!table.Sample.HasNumbers(column))
            {
                throw bytes.Error(Text($"column {column + 1} holds no numbers in the first {table.Sample.Rows} rows; choose another with --columns ({List()})"));
            }
        }
    }

    private ColumnPlan Made(int time, List<(ColumnRole Role, int Column)> axes, AccelerationUnit unit)
    {
        var clock = time >= 0 && table.Sample.IsTimestamp(time);
        var voltage = supply < 0 ? -1 : SupplyColumn.Take(supply, supply == time ? "time" : axes.Exists(a => a.Column == supply) ? "an axis" : null, table, options, bytes);
        return new ColumnPlan
        {
            Time = time,
            ClockTime = clock,
            TimeUnit = time < 0 || clock ? TimeUnit.Seconds : units.OfTime(time),
            Columns = axes.ConvertAll(a => a.Column).ToArray(),
            Axes = axes.ConvertAll(a => (Axis)(a.Role - ColumnRole.X)).ToArray(),
            Unit = unit,
            MostCells = table.HasText ? int.MaxValue : Math.Max(table.Columns, header.Names.Count),
            Scales = [.. Enumerable.Repeat(units.Scale(unit), axes.Count)],
            Supply = voltage,
            SupplyScale = SupplyColumn.Scale(header, voltage),
        };
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);

    private int Find(ColumnChoice choice)
    {
        var column = choice.Number is { } number ? number - 1 : header.IndexOf(choice.Name!);
        if (column < 0 || column >= table.Columns)
        {
            throw bytes.Error(header.Names.Count == 0 && choice.Name is not null
                ? Text($"has no header, so no column is called '{choice.Name}'; give a number from 1 to {table.Columns} with --columns")
                : Text($"has no column '{choice.Name ?? choice.Number!.Value.ToString(CultureInfo.InvariantCulture)}', or more than one; it has {List()}"));
        }

        return column;
    }

    private int TimeColumn(List<(ColumnRole Role, int Column)> chosen)
    {
        if (options.Columns?.Any(c => c.IsNoTime) == true)
        {
            return -1;
        }

        foreach (var (role, column) in chosen)
        {
            if (role == ColumnRole.Time || (role == ColumnRole.Unsaid && RoleOf(column) == ColumnRole.Time))
            {
                return HoldsTime(column) ? column : throw bytes.Error(Text($"column {column + 1} holds no times; choose another with --columns, or t=none"));
            }
        }

        for (var i = 0; i < table.Columns; i++)
        {
            if (RoleOf(i) == ColumnRole.Time && HoldsTime(i))
            {
                return i;
            }
        }

        return GuessTime(chosen);
    }

    private int GuessTime(List<(ColumnRole Role, int Column)> chosen)
    {
        for (var i = 0; i < table.Columns; i++)
        {
            if (table.Sample.IsTimestamp(i))
            {
                guesses.Add(Text($"column {i + 1} was taken for time: it holds times of the clock"));
                return i;
            }
        }

        var first = Enumerable.Range(0, table.Columns).FirstOrDefault(table.Sample.IsNumeric, -1);
        if (first < 0 || first == supply || chosen.Any(c => c.Column == first) || RoleOf(first) != ColumnRole.Unsaid
            || !table.Sample.RunsLikeTime(first, out var countsByOne))
        {
            return -1;
        }

        if ((first < header.Names.Count && header.Names[first].IsRowNumber) || (countsByOne && options.TimeUnit is null))
        {
            guesses.Add(Text($"column {first + 1} was taken for a row number: it counts by one; if it is time, say so with --columns t={first + 1}"));
            return -1;
        }

        guesses.Add(Text($"column {first + 1} was taken for time: it runs in even steps"));
        return first;
    }

    private List<(ColumnRole Role, int Column)> FindAxes(int time)
    {
        var free = Enumerable.Range(0, table.Columns).Where(i => i != time && table.Sample.IsNumeric(i) && RoleOf(i) != ColumnRole.Time).ToList();
        var named = free.Where(i => RoleOf(i) != ColumnRole.Unsaid).ToList();
        if (named.FindAll(i => header.Names[i].Place is null) is { Count: > 0 } plain)
        {
            named = plain;
        }

        var places = named.Select(i => header.Names[i].Place).OfType<SensorPlace>().Distinct().Select(SensorPlaces.Name).ToList();
        if (places.Count > 1)
        {
            throw bytes.Error($"holds several sensors ({string.Join(", ", places)}); list them in the feeder file with [[sensors]], or choose one sensor's columns with --columns ({List()})");
        }

        if (named.Count > 0)
        {
            return named.ConvertAll(i => (RoleOf(i), i));
        }

        if (free.Count > 1)
        {
            free.Remove(supply);
        }

        free.RemoveAll(i => (i < header.Names.Count && header.Names[i].IsRowNumber) || IsGuessedRowNumber(i));
        var likely = free.Where(i => header.UnitOf(i).HasValue || (i < header.Names.Count && header.Names[i].IsAcceleration)).ToList();
        var taken = likely.Count is > 0 and <= 3 ? likely : free;
        if (taken.Count is 0 or > 3)
        {
            throw bytes.Error(taken.Count == 0
                ? "has no column of numbers beside its time; choose columns with --columns"
                : Text($"has {taken.Count} columns of numbers; choose up to three with --columns, as in --columns x=2,z=3 ({List()})"));
        }

        return taken.ConvertAll(i => (ColumnRole.Unsaid, i));
    }

    private bool IsGuessedRowNumber(int column) => column == Enumerable.Range(0, table.Columns).FirstOrDefault(table.Sample.IsNumeric, -1)
        && RoleOf(column) == ColumnRole.Unsaid && table.Sample.Columns > 1
        && table.Sample.RunsLikeTime(column, out var countsByOne) && countsByOne;

    private void AssignAxes(List<(ColumnRole Role, int Column)> axes)
    {
        for (var i = 0; i < axes.Count; i++)
        {
            if (axes[i].Role == ColumnRole.Unsaid && RoleOf(axes[i].Column) is > ColumnRole.Time and var role && axes.All(a => a.Role != role))
            {
                axes[i] = (role, axes[i].Column);
            }
        }

        if (axes.Count > 3)
        {
            throw bytes.Error($"more than three axes are chosen; choose up to three with --columns ({List()})");
        }

        ColumnRole[] order = axes.Count == 2 ? [ColumnRole.X, ColumnRole.Z, ColumnRole.Y] : [ColumnRole.X, ColumnRole.Y, ColumnRole.Z];
        for (var i = 0; i < axes.Count; i++)
        {
            if (axes[i].Role == ColumnRole.Unsaid)
            {
                var role = order.First(r => axes.All(a => a.Role != r));
                axes[i] = (role, axes[i].Column);
                guesses.Add(Text($"column {axes[i].Column + 1} was taken for {role.ToString().ToLowerInvariant()}; say otherwise with --columns"));
            }
        }
    }

    private ColumnRole RoleOf(int column) => column < header.Names.Count ? header.Names[column].Role : ColumnRole.Unsaid;

    private bool HoldsTime(int column) => table.Sample.IsTimestamp(column) || table.Sample.IsNumeric(column);

    private string List() => string.Join(", ", Enumerable.Range(0, Math.Min(table.Columns, 24)).Select(i => i < header.Names.Count
        ? Text($"{i + 1} '{header.Names[i].Text}'")
        : Text($"{i + 1}"))) + (table.Columns > 24 ? "…" : string.Empty);
}
