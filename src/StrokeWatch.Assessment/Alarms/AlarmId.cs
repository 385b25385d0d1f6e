using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Alarms;

/// <summary>Which alarm of a feeder.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Place">The place of the sensor that it is about, where there are several; null where it is about the feeder.</param>
public readonly record struct AlarmId(AlarmKind Kind, SensorPlace? Place = null)
{
    /// <summary>Writes it as files and requests do: <c>sensor-lost</c>, <c>sensor-lost/front</c>.</summary>
    public override string ToString() => Place is { } place ? $"{Names.Of(Kind)}/{SensorPlaces.Name(place)}" : Names.Of(Kind);

    /// <summary>Reads it as it is written.</summary>
    public static bool TryParse(string text, out AlarmId id)
    {
        var parts = text.Trim().Split('/');
        id = default;
        if (parts.Length > 2 || !Names.TryParse(parts[0], out AlarmKind kind))
        {
            return false;
        }

        id = new(kind);
        if (parts.Length == 2)
        {
            if (!SensorPlaces.TryParse(parts[1], out var place))
            {
                return false;
            }

            id = new(kind, place);
        }

        return true;
    }
}
