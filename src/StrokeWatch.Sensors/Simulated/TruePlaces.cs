using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>Watches the places of several sensors and the tray's motion against the body's.</summary>
internal sealed class TruePlaces
{
    private readonly IReadOnlyList<SimulatedPlace> places;
    private readonly TruthWindow[] windows;
    private readonly TruthWindow apart;
    private readonly List<TruthReading[]> readings = [];
    private readonly List<double> relatives = [];
    private readonly int lead;
    private readonly int body;
    private readonly int onTray;

    public TruePlaces(FeederScenario scenario, double stepSeconds)
    {
        places = scenario.Sensors;
        windows = [.. places.Select(_ => new TruthWindow(stepSeconds, scenario.Feeder.Drive.NominalHz))];
        apart = new(stepSeconds, scenario.Feeder.Drive.NominalHz);
        List<bool> tray = [.. places.Select(place => SensorPlaces.IsOnTray(place.Place))];
        (lead, body, onTray) = (tray.IndexOf(true), tray.IndexOf(false), tray.Count(on => on));
    }

    /// <summary>Gets the largest tray stroke of each window in metres.</summary>
    public List<double> Largest { get; } = [];

    /// <summary>Forgets the windows begun.</summary>
    public void Clear()
    {
        Array.ForEach(windows, window => window.Clear());
        apart.Clear();
    }

    /// <summary>Looks at the machine after a step; gives the mean of the tray's places when a window is full.</summary>
    public TruthReading? Add(FeederMachine machine)
    {
        double x = 0, z = 0;
        TruthReading[]? full = null;
        for (var i = 0; i < windows.Length; i++)
        {
            var place = machine.PlaceDisplacements[i];
            var share = i == body ? -1 : SensorPlaces.IsOnTray(places[i].Place) ? 1.0 / onTray : 0;
            (x, z) = (x + (share * place.X), z + (share * place.Z));
            if (windows[i].Add(machine.Seconds, machine.Phase, place) is { } reading)
            {
                full ??= new TruthReading[windows.Length];
                full[i] = reading;
            }
        }

        if (body >= 0 && apart.Add(machine.Seconds, machine.Phase, (x, z)) is { } between)
        {
            relatives.Add(between.PeakToPeak);
        }

        if (full is null)
        {
            return null;
        }

        readings.Add(full);
        List<TruthReading> tray = [.. full.Where((_, i) => SensorPlaces.IsOnTray(places[i].Place))];
        Largest.Add(tray.Max(reading => reading.PeakToPeak));
        return full[lead] with { PeakToPeak = tray.Average(reading => reading.PeakToPeak), Fundamental = tray.Average(reading => reading.Fundamental) };
    }

    /// <summary>Gives the truth of each sensor; none where there was no whole window.</summary>
    public IReadOnlyList<TrueSensor> Sensors(IReadOnlyList<SensorElement> elements) => readings.Count == 0 ? [] : [.. places.Select((place, i) => new TrueSensor(
        place.Place,
        Length.FromMetres(TruthCollector.Median(readings.Select(window => window[i].PeakToPeak))),
        Phase(i),
        elements[i].SeenAngleDegrees(TruthCollector.Median(readings.Select(window => window[i].Angle)))))];

    /// <summary>Gives the tray's stroke against the body; null where no sensor sits on the body.</summary>
    public Length? Relative() => relatives.Count == 0 ? null : Length.FromMetres(TruthCollector.Median(relatives));

    private double Phase(int i)
    {
        double Ahead(TruthReading[] window) => window[i].Phase - window[lead].Phase + (places[i].Reversed == places[lead].Reversed ? 0 : Math.PI);
        var mean = Math.Atan2(readings.Sum(window => Math.Sin(Ahead(window))), readings.Sum(window => Math.Cos(Ahead(window))));
        return mean * 180 / Math.PI;
    }
}
