using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Sensors.Lines;

/// <summary>The time of text lines: the device's own column where there is one, its wraps and its gaps, and the measured rate.</summary>
internal sealed class LineClock(TextLineFormat format)
{
    /// <summary>Where a counter of 32 bits begins anew, in the column's own unit.</summary>
    private const double Wrap = 4294967296;

    private readonly RateMeter meter = new();
    private double wraps;
    private double last;
    private bool started;
    private long samples;

    /// <summary>Gets the measured rate in Hz; null where one is configured or the span is still short.</summary>
    public double? MeasuredRateHz => format.RateHz is null ? meter.RateHz : null;

    /// <summary>Gives the samples missing before a time, null for a device that started anew; it changes nothing.</summary>
    public long? Missing(double time)
    {
        if (!started || format.Time == TimeColumn.None)
        {
            return 0;
        }

        var step = (time - last) * format.TimeUnit;
        if (step < 0)
        {
            return HasWrapped(time) ? 0 : null;
        }

        // A column in ms cannot show single samples above 1 kHz: its own unit is part of the tolerance.
        return (format.RateHz ?? meter.RateHz) is { } rate && step > (1.5 / rate) + format.TimeUnit
            ? (long)Math.Round(step * rate) - 1
            : 0;
    }

    /// <summary>Goes on from an accepted line.</summary>
    public void Accept(double time, long? missing)
    {
        if (missing is null)
        {
            wraps = 0;
            meter.Restart();
        }
        else if (format.Time != TimeColumn.None && started && time < last)
        {
            wraps += Wrap;
        }

        samples += 1 + (missing ?? 0);
        last = time;
        started = true;
        if (format.Time != TimeColumn.None)
        {
            meter.Note((wraps + time) * format.TimeUnit, samples);
        }
    }

    /// <summary>Notes the host's time in seconds after the last line at hand, where lines carry no time.</summary>
    public void NoteHost(double seconds)
    {
        if (format.Time == TimeColumn.None && started)
        {
            meter.Note(seconds, samples);
        }
    }

    private bool HasWrapped(double time) => last < Wrap && last - time > Wrap / 2;
}
