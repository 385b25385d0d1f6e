using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Pipeline;

/// <summary>Cuts a live run into stretches and has each summed up and judged at the desk, once the stop that ended it has been read there.</summary>
/// <param name="feeder">The feeder.</param>
/// <param name="settings">How running is cut.</param>
/// <param name="time">The clock.</param>
/// <param name="desk">Where stretches are summed up.</param>
/// <param name="judge">Judges a stretch that ended at a time of the source's axis, at the desk; gives what is then to be said.</param>
internal sealed class StretchListener(
    FeederDescription feeder, StretchSettings settings, TimeProvider time, IDesk desk, Func<Stretch, double, Action?> judge) : IChainListener
{
    /// <summary>A stop may be found in the window after the last in which the feeder ran, and reaches back into the one before.</summary>
    private const double StopReach = 2;

    private readonly HashSet<(AlarmKind Kind, SensorPlace? Place)> active = [];
    private readonly List<StretchBuilder> closing = [];
    private IMeasurement? measurement;
    private StretchBuilder? open;
    private SeveralReading? sensors;
    private (StretchBuilder Builder, OrientationReading? Orientation)? ended;

    /// <inheritdoc/>
    public void Begin(IMeasurement measurement) => this.measurement = measurement;

    /// <inheritdoc/>
    public void Several(in SeveralReading reading) => sensors = reading;

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        var shown = sensors;
        sensors = null;

        // A stop is caught after the window that shows it: by the next one it is at the desk, and what is posted now comes after it.
        Close();
        if (open is null)
        {
            if (!StretchBuilder.Begins(window))
            {
                return;
            }

            _ = measurement?.TakeOrientation();
            open = new(feeder, settings, time.GetUtcNow().AddSeconds(-window.Reading.LengthSeconds), window.Reading.StartSeconds) { Alarm = active.Count > 0 };
        }

        open.Add(window, shown);
        End();
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
        var start = decay.StartSeconds;
        (closing.Find(builder => start <= builder.EndSeconds + StopReach) ?? Ended(start) ?? open)?.Add(decay);
    }

    /// <inheritdoc/>
    public void Start(in StartReading reading)
    {
        var start = reading.StartSeconds;
        (open is not null && start >= open.StartSeconds - StopReach ? open : closing.Find(builder => start <= builder.EndSeconds) ?? Ended(start))?.Add(reading);
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
        _ = transition.Raised ? active.Add((transition.Kind, transition.Place)) : active.Remove((transition.Kind, transition.Place));
        if (transition.Raised && open is not null)
        {
            open.Alarm = true;
        }
    }

    /// <inheritdoc/>
    public void Finish()
    {
        open?.End(StretchEnd.Over);
        End();
        Close();
    }

    private StretchBuilder? Ended(double start) => ended is { Builder: var builder } && start <= builder.EndSeconds + StopReach ? builder : null;

    private void End()
    {
        if (open?.Ended is not null)
        {
            (ended, open) = ((open, measurement?.TakeOrientation()), null);
        }
    }

    private void Close()
    {
        if (ended is not var (builder, orientation))
        {
            return;
        }

        ended = null;
        closing.Add(builder);
        if (!desk.Post(() => () => SumUp(builder, orientation)))
        {
            closing.Remove(builder);
        }
    }

    private void SumUp(StretchBuilder builder, OrientationReading? orientation)
    {
        closing.Remove(builder);
        if (measurement?.Settings is { } meter)
        {
            var (jitter, contributions) = (measurement.Jitter, meter.Contributions.Hiding(measurement.HiddenCut));
            desk.Post(() => judge(builder.Build(contributions, meter.Stations, orientation, meter.Axes.Count, jitter, meter.RateHz), builder.EndSeconds));
        }
    }
}
