namespace StrokeWatch.Samples.Blocks;

/// <summary>The names of places, as files and people write them.</summary>
public static class SensorPlaces
{
    /// <summary>Gets all places, the tray's first.</summary>
    public static IReadOnlyList<SensorPlace> All { get; } = Enum.GetValues<SensorPlace>();

    /// <summary>Gets all names, in the same order.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. All.Select(Name)];

    /// <summary>Gives a place's name: <c>front</c>, <c>rear-left</c>, <c>body</c>.</summary>
    public static string Name(SensorPlace place) => place switch
    {
        SensorPlace.Front => "front",
        SensorPlace.Rear => "rear",
        SensorPlace.Left => "left",
        SensorPlace.Right => "right",
        SensorPlace.FrontLeft => "front-left",
        SensorPlace.FrontRight => "front-right",
        SensorPlace.RearLeft => "rear-left",
        SensorPlace.RearRight => "rear-right",
        _ => "body",
    };

    /// <summary>Says whether a place is on the tray.</summary>
    public static bool IsOnTray(SensorPlace place) => place != SensorPlace.Body;

    /// <summary>Reads a place's name; an underscore or a space will do for the hyphen.</summary>
    public static bool TryParse(string text, out SensorPlace place)
    {
        var name = text.Trim().ToLowerInvariant().Replace('_', '-').Replace(' ', '-');
        for (var i = 0; i < Names.Count; i++)
        {
            if (Names[i] == name)
            {
                place = All[i];
                return true;
            }
        }

        place = default;
        return false;
    }
}
