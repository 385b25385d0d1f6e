using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Samples.Captures;

/// <summary>One of several sensors whose samples are wanted from a capture.</summary>
/// <param name="Place">Where it sits.</param>
/// <param name="Columns">Its columns (CSV) or channels (WAV), 1 to 3; empty where their own names tell.</param>
public sealed record SensorChoice(SensorPlace Place, IReadOnlyList<ColumnChoice> Columns)
{
    /// <summary>Gives each wanted sensor with the columns that the user chose, or else its own; a wrong choice comes as one line.</summary>
    internal static IReadOnlyList<SensorChoice> Of(CaptureOptions options, Func<string, Exception> error)
    {
        var said = options.Columns?.Where(c => c.Role != ColumnRole.Time).ToList() ?? [];
        if (said.Find(c => c.Place is null) is { } bare)
        {
            throw error($"--columns says {bare} without a sensor, but the feeder file lists several; write {SensorPlaces.Name(options.Sensors[0].Place)}.x=2");
        }

        if (said.Find(c => options.Sensors.All(s => s.Place != c.Place)) is { } strange)
        {
            throw error($"--columns names the sensor {SensorPlaces.Name(strange.Place!.Value)}, but the feeder file lists {Names(options.Sensors)}; add it there with [[sensors]]");
        }

        return [.. options.Sensors.Select(s => said.FindAll(c => c.Place == s.Place) is { Count: > 0 } own ? s with { Columns = own } : s)];
    }

    /// <summary>Refuses places where no sensors are listed.</summary>
    internal static void Single(CaptureOptions options, Func<string, Exception> error)
    {
        if (options.Columns?.FirstOrDefault(c => c.Place is not null) is { } placed)
        {
            throw error($"--columns names the sensor {SensorPlaces.Name(placed.Place!.Value)}, but the feeder file lists no sensors; list them there with [[sensors]]");
        }
    }

    private static string Names(IReadOnlyList<SensorChoice> sensors) => string.Join(", ", sensors.Select(s => SensorPlaces.Name(s.Place)));
}
