using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Pipeline.Ports;

/// <summary>The words of the alarms that belong to one of several devices, not to the feeder.</summary>
internal static class PortAlarms
{
    /// <summary>Says whether an alarm is a device's own: that it is silent, or at its rail.</summary>
    public static bool Own(AlarmKind kind) => kind is AlarmKind.SensorLost or AlarmKind.SensorClipped;

    /// <summary>Gives a device's alarm with its places and what they mean for the rest.</summary>
    /// <param name="transition">The alarm as its own chain gave it.</param>
    /// <param name="port">The device.</param>
    /// <param name="others">Whether another device on the tray still measures.</param>
    public static AlarmTransition Of(in AlarmTransition transition, MeasuredPort port, bool others)
    {
        var name = $"Sensor {string.Join(", ", port.Sensors.Select(sensor => SensorPlaces.Name(sensor.Place)))}";
        var rest = others ? "The others are measured on." : "Nothing is measured.";
        var words = (transition.Kind, transition.Raised) switch
        {
            (AlarmKind.SensorLost, true) => $"{name} lost: nothing comes from it. {rest} Check its cable and supply.",
            (AlarmKind.SensorLost, false) => $"{name} is back.",
            (_, true) => $"{name} at its rail: its own stroke cannot be measured. Use a sensor of larger range, or look for hammering.",
            _ => $"{name} no longer at its rail.",
        };
        return transition with { Place = port.Sensors[0].Place, Words = words };
    }
}
