using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Stations;

/// <summary>One of several sensors with its own analysis on its own channels of the shared samples.</summary>
internal sealed class Station
{
    /// <summary>The body moves less than the tray: it counts as still from this share of the tray's threshold.</summary>
    private const double BodyStillShare = 0.1;

    private readonly StationSettings own;
    private readonly SampleMarks mask;
    private WindowBuffer? part;

    /// <summary>Makes the sensor of an index.</summary>
    public Station(MeterSettings settings, int index, int longest)
    {
        own = settings.Stations[index];
        mask = SampleMarks.Clipped | StationSettings.ClippedMark(index);
        Axes = [.. settings.Axes.Skip(own.FirstChannel).Take(own.Channels)];
        var still = settings.StillBelowMetres * (OnTray ? 1 : BodyStillShare);
        Analysis = new(settings with { Axes = Axes, Stations = [], FullScale = own.FullScale, Contributions = own.Contributions, StillBelowMetres = still }, longest);
        Traits = StationTraits.Of(own);
    }

    /// <summary>Gets where it sits.</summary>
    public SensorPlace Place => own.Place;

    /// <summary>Gets whether it sits on the tray.</summary>
    public bool OnTray => SensorPlaces.IsOnTray(own.Place);

    /// <summary>Gets its axes.</summary>
    public IReadOnlyList<Axis> Axes { get; }

    /// <summary>Gets its analysis.</summary>
    public WindowAnalysis Analysis { get; }

    /// <summary>Gets what of it enters the one reading that is judged.</summary>
    public StationTraits Traits { get; }

    /// <summary>Works the window out by itself, or beside another sensor at that one's frequency.</summary>
    public WindowReading Read(WindowBuffer buffer, int count, double frequency, Station? beside)
    {
        part ??= buffer.Part(own.FirstChannel, own.Channels);
        part.Show(buffer, count, mask);
        return beside is null ? Analysis.Read(part, count, frequency) : Analysis.ReadBeside(part, count, beside.Analysis);
    }
}
