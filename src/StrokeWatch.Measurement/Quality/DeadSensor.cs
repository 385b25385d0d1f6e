using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Measurement.Quality;

/// <summary>Tells a sensor that gives the same values again and again from one at rest.</summary>
internal static class DeadSensor
{
    /// <summary>Says whether every axis gives one value through the first samples of a buffer.</summary>
    public static bool Shows(WindowBuffer buffer, int count)
    {
        // A tray at rest still has the sensor's noise; a dead sensor has none.
        foreach (var axis in buffer.Axes)
        {
            if (axis.AsSpan(buffer.First, count).ContainsAnyExcept(axis[buffer.First]))
            {
                return false;
            }
        }

        return true;
    }
}
