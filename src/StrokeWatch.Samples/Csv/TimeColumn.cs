using System.Runtime.CompilerServices;

namespace StrokeWatch.Samples.Csv;

/// <summary>Turns the times of a column into seconds from its first one.</summary>
internal sealed class TimeColumn
{
    private readonly double scale;
    private DecimalNumber first;
    private bool started;

    /// <summary>Makes a column; its unit in seconds.</summary>
    public TimeColumn(double scale) => this.scale = scale;

    /// <summary>Gets the smallest place of ten in which a time so far differs from zero; null where none does.</summary>
    public int? LastPlace { get; private set; }

    /// <summary>Gets whether <see cref="LastPlace"/> is kept.</summary>
    public bool WatchPlaces { get; init; }

    /// <summary>Gives a time in seconds from the first that was asked for.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double Seconds(DecimalNumber time)
    {
        if (WatchPlaces || !started)
        {
            Look(time);
        }

        return time.Minus(first) * scale;
    }

    private void Look(DecimalNumber time)
    {
        first = started ? first : time;
        started = true;
        if (WatchPlaces && time.LastPlace() is { } place)
        {
            LastPlace = Math.Min(place, LastPlace ?? place);
        }
    }
}
