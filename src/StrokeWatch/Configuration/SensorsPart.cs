using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Configuration;

/// <summary>The tables [[sensors]] of a feeder file: several accelerometers, on the tray and on the body, in one capture.</summary>
internal static class SensorsPart
{
    private const int MostAxes = 3;
    private const string ExpectedColumns = "a list of 1 to 3 columns, by name or by number from 1, such as [\"fx\", \"fz\"] or [2, 3],";
    private const string ExpectedChannels = "a list of 1 to 3 channels, numbers from 1, such as [1, 2, 3],";
    private const string ExpectedAxes = "a list of as many of \"x\", \"y\" and \"z\" as there are columns, each once,";

    /// <summary>Reads the sensors; none where there are no such tables.</summary>
    /// <param name="root">The feeder file's top.</param>
    /// <param name="path">The feeder file, beside which calibrations are looked for.</param>
    /// <param name="calibrationErrors">All that is wrong with the calibration files.</param>
    public static IReadOnlyList<PlacedSensor> Read(TableReader root, string path, out IReadOnlyCollection<ConfigurationError> calibrationErrors)
    {
        var all = new List<ConfigurationError>();
        var places = new Dictionary<SensorPlace, int>();
        var sensors = root.Rows("sensors", "tables [[sensors]], each with a place,", table => Sensor(table, path, places, all), least: 1);
        calibrationErrors = [.. all.Distinct()];
        if (sensors is null)
        {
            return [];
        }

        if (root.Has("sensor"))
        {
            root.Refuse("sensors", "`[[sensors]]` stands beside `[sensor]`; one of the two was expected");
        }

        if (places.Count > 0 && !places.Keys.Any(SensorPlaces.IsOnTray))
        {
            root.Refuse("sensors", "no sensor of [[sensors]] sits on the tray; at least one with another place than \"body\" was expected");
        }

        return sensors.Contains(null) ? [] : [.. sensors.Select(sensor => sensor!)];
    }

    private static PlacedSensor? Sensor(TableReader table, string path, Dictionary<SensorPlace, int> places, List<ConfigurationError> all)
    {
        table.Require("place", $"one of {string.Join(", ", SensorPlaces.Names.Select(name => $"\"{name}\""))}");
        var named = table.Choice("place", [.. SensorPlaces.Names]);
        var columns = Columns(table);
        var sensor = SensorPart.Describe(table, path, out var errors);
        all.AddRange(errors);
        if (named is null || !SensorPlaces.TryParse(named, out var place))
        {
            return null;
        }

        if (!places.TryAdd(place, table.LineOf("place")))
        {
            table.Refuse("place", $"the place \"{named}\" is given twice, first on line {places[place]}; each place once was expected");
        }

        return new(place, [.. columns.Select(column => column with { Place = place })], sensor);
    }

    private static IReadOnlyList<ColumnChoice> Columns(TableReader table)
    {
        var columns = table.Items("columns", ExpectedColumns, 1, MostAxes, names: true);
        var channels = table.Items("channels", ExpectedChannels, 1, MostAxes, names: false);
        if (table.Has("columns") && table.Has("channels"))
        {
            table.Refuse("channels", "`channels` stands beside `columns`; one of the two was expected");
        }

        var chosen = columns ?? channels ?? [];
        if (chosen.Distinct().Count() < chosen.Count)
        {
            table.Refuse(columns is null ? "channels" : "columns", "a column is given twice; each once was expected");
        }

        return [.. chosen.Zip(Axes(table, chosen.Count), (column, role) => new ColumnChoice(role, column is long number ? (int)number : null, column as string))];
    }

    private static IEnumerable<ColumnRole> Axes(TableReader table, int count)
    {
        var unsaid = Enumerable.Repeat(ColumnRole.Unsaid, count);
        if (table.Items("axes", ExpectedAxes, 1, MostAxes, names: true) is not { } axes)
        {
            return unsaid;
        }

        var roles = axes.Select(axis => axis switch { "x" => ColumnRole.X, "y" => ColumnRole.Y, "z" => ColumnRole.Z, _ => ColumnRole.Unsaid }).ToList();
        if (!roles.Contains(ColumnRole.Unsaid) && roles.Distinct().Count() == roles.Count && roles.Count == count)
        {
            return roles;
        }

        if (count > 0 || !table.Has("columns") && !table.Has("channels"))
        {
            table.Refuse("axes", count > 0 ? $"`axes` does not go with its columns; {ExpectedAxes} was expected" : "`axes` stands without `columns`; both were expected");
        }

        return unsaid;
    }
}
