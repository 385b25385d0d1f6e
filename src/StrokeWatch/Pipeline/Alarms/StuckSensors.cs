using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>The alarms of sensors that give the same value again and again: of the only one, or of each of several.</summary>
internal sealed class StuckSensors(AlarmRow row)
{
    private readonly Dictionary<AlarmId, DelayedAlarm> sensors = [];

    /// <summary>Says whether a sensor, or the only one, is called stuck.</summary>
    public bool Holds(SensorPlace? place) => sensors.TryGetValue(new(AlarmKind.SensorStuck, place), out var alarm) && alarm.Active;

    /// <summary>Takes what several sensors showed in a window.</summary>
    public void Take(in SeveralReading several, double lengthSeconds, Action<AlarmTransition> changed)
    {
        foreach (var sensor in several.Sensors.Span)
        {
            Take(sensor.Place, sensor.Reading, lengthSeconds, changed);
        }
    }

    /// <summary>Takes what one sensor showed in a window; place null where it is the only one.</summary>
    public void Take(SensorPlace? place, in WindowReading reading, double lengthSeconds, Action<AlarmTransition> changed)
    {
        var id = new AlarmId(AlarmKind.SensorStuck, place);
        if (!sensors.TryGetValue(id, out var alarm))
        {
            sensors.Add(id, alarm = new(row.OnSeconds, row.OffSeconds));
        }

        // A gap shows nothing: a sensor that is silent is called lost, not stuck.
        if (alarm.Step(reading.Quality == WindowQuality.Gap ? null : reading.Stuck, lengthSeconds))
        {
            var name = place is { } known ? $"Sensor {SensorPlaces.Name(known)}" : "Sensor";
            changed(new(
                AlarmKind.SensorStuck, alarm.Active, reading.StartSeconds + reading.LengthSeconds, null,
                alarm.Active ? $"{name} stuck: it gives the same value again and again, nothing is measured with it. Check its wiring, its supply and its firmware." : $"{name} gives living values again.")
            { Place = place });
        }
    }
}
