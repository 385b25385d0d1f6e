using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Measurement.Stations;

/// <summary>
/// Works windows out for several sensors at once: the first tray sensor that gives a stroke leads, and all others are fitted over the same samples at its
/// frequency, so that their harmonics can be compared as complex numbers. A body alone is measured by itself. Nothing is allocated a window.
/// </summary>
internal sealed class StationAnalysis : IWindowAnalysis
{
    private readonly Station[] stations;
    private readonly StationReading[] readings;
    private readonly StationTraits[] traits;
    private readonly RelativeMotion relative;
    private readonly SharedLine line;
    private RelativeReading apart;
    private int lead;

    /// <summary>Makes the analysis for windows up to a number of samples.</summary>
    public StationAnalysis(MeterSettings settings, int longest)
    {
        stations = [.. settings.Stations.Select((_, i) => new Station(settings, i, longest))];
        readings = new StationReading[stations.Length];
        traits = [.. stations.Select(station => station.Traits)];
        relative = new(stations.Length);
        line = new(settings.LineAngleDegrees);
        Orientations = [.. stations.Select(station => station.Analysis.Orientation!)];
    }

    /// <inheritdoc/>
    public OrientationTally? Orientation => null;

    /// <inheritdoc/>
    public IReadOnlyList<OrientationTally> Orientations { get; }

    /// <inheritdoc/>
    public JitterReading? Jitter => stations[lead].Analysis.Jitter;

    /// <inheritdoc/>
    public double MeasuredFrequency => stations[lead].Analysis.MeasuredFrequency;

    /// <inheritdoc/>
    public ReadOnlySpan<double> Line(int count) => stations[lead].Analysis.Line(count);

    /// <inheritdoc/>
    public ReadOnlySpan<double> LineBefore(int count) => stations[lead].Analysis.LineBefore(count);

    /// <inheritdoc/>
    public ReadOnlySpan<double> Places(int count) => stations[lead].Analysis.Places(count);

    /// <inheritdoc/>
    public void Forget()
    {
        foreach (var station in stations)
        {
            station.Analysis.Forget();
        }
    }

    /// <inheritdoc/>
    public bool InRange(double frequency) => stations[lead].Analysis.InRange(frequency);

    /// <inheritdoc/>
    public void Tell(IWindowSink sink) => sink.Several(new(readings, apart));

    /// <inheritdoc/>
    public WindowReading Read(WindowBuffer buffer, int count, double frequency)
    {
        var found = FindLead(buffer, count, frequency, out var read);
        for (var i = 0; i < stations.Length; i++)
        {
            if (!stations[i].OnTray || (found && i > read))
            {
                readings[i] = Made(i, stations[i].Read(buffer, count, frequency, found ? stations[lead] : null));
            }
        }

        if (found)
        {
            line.Take(stations[lead]);
            for (var i = 0; i < stations.Length; i++)
            {
                Phase(i);
            }
        }

        apart = relative.Work(stations, readings, lead, line);
        return TrayReading.Of(traits, readings, lead);
    }

    /// <summary>Reads the tray's sensors one after the other until one gives a stroke; where none does, the first that shows the drive at all leads.</summary>
    private bool FindLead(WindowBuffer buffer, int count, double frequency, out int read)
    {
        var moving = -1;
        for (read = 0; read < stations.Length; read++)
        {
            if (!stations[read].OnTray)
            {
                continue;
            }

            readings[read] = Made(read, stations[read].Read(buffer, count, frequency, null));
            if (readings[read].Counts)
            {
                lead = read;
                return true;
            }

            moving = moving < 0 && readings[read].Reading.Motion != MotionState.Unknown ? read : moving;
        }

        lead = moving >= 0 ? moving : Math.Max(0, Array.FindIndex(stations, station => station.OnTray));
        return false;
    }

    private StationReading Made(int i, in WindowReading reading) => new() { Place = stations[i].Place, Reading = reading };

    private void Phase(int i)
    {
        if (readings[i] is { Counts: true, Reading: { FundamentalMetres: > 0 and var size, NoiseMetres: var noise } } && line.Sign(stations[i]) is { } sign)
        {
            var path = stations[i].Analysis.Path;
            readings[i] = readings[i] with
            {
                PhaseRadians = Math.Atan2(-sign * path.LineSine[1], sign * path.LineCosine[1]),
                PhaseNoiseRadians = noise / size,
            };
        }
    }
}
