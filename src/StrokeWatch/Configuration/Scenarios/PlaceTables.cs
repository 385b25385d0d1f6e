using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Configuration.Scenarios;

/// <summary>A scenario's tables [[sensors]]: where several accelerometers sit, and how the tray moves there.</summary>
internal static class PlaceTables
{
    /// <summary>Reads the places; none where there are no such tables.</summary>
    public static IReadOnlyList<SimulatedPlace> Read(TableReader root)
    {
        var seen = new HashSet<SensorPlace>();
        var read = root.Rows("sensors", "a list of tables [[sensors]], each with a place,", table => Place(table, seen), least: 1);
        List<SimulatedPlace> places = [.. read?.OfType<SimulatedPlace>() ?? []];
        if (places.Count > 0 && !places.Exists(place => SensorPlaces.IsOnTray(place.Place)))
        {
            root.Refuse("sensors", "no sensor of [[sensors]] sits on the tray; at least one with another place than \"body\" was expected");
        }

        return places;
    }

    private static SimulatedPlace? Place(TableReader table, HashSet<SensorPlace> seen)
    {
        table.Require("place", $"one of {string.Join(", ", SensorPlaces.Names.Select(name => $"\"{name}\""))}");
        var named = table.Choice("place", [.. SensorPlaces.Names]);
        var scale = table.Number("stroke_scale", 0.01, 3) ?? 1;
        var phase = table.Number("phase_deg", -180, 180) ?? 0;
        var reversed = table.Flag("reversed") ?? false;
        if (named is null || !SensorPlaces.TryParse(named, out var place))
        {
            return null;
        }

        if (!seen.Add(place))
        {
            table.Refuse("place", $"the place \"{named}\" is given twice; each place once was expected");
        }

        if (!SensorPlaces.IsOnTray(place))
        {
            foreach (var key in new[] { "stroke_scale", "phase_deg" }.Where(table.Has))
            {
                table.Refuse(key, $"`{key}` is given for the body, which moves as the machine has it; no `{key}` was expected");
            }
        }

        return new(place, scale, phase, reversed);
    }
}
