namespace StrokeWatch.Measurement.CoastDown;

/// <summary>The samples along the line of action about a stop or a start, up to four seconds of them.</summary>
internal sealed class TransientSamples
{
    private const double LongestSeconds = 4;
    private readonly double[] samples;

    /// <summary>Makes room for samples of a rate.</summary>
    public TransientSamples(double rateHz) => (RateHz, samples) = (rateHz, new double[(int)Math.Ceiling(LongestSeconds * rateHz) + 1]);

    private TransientSamples(TransientSamples other)
    {
        (RateHz, Active, Done, Count, StartSeconds) = (other.RateHz, other.Active, other.Done, other.Count, other.StartSeconds);
        samples = other.Samples.ToArray();
    }

    /// <summary>Gets whether samples are being collected.</summary>
    public bool Active { get; private set; }

    /// <summary>Gets or sets whether the transient that lasts has been read already.</summary>
    public bool Done { get; set; }

    /// <summary>Gets the number of samples.</summary>
    public int Count { get; private set; }

    /// <summary>Gets whether there is no room for more.</summary>
    public bool Full => Count == samples.Length;

    /// <summary>Gets the time of the first sample in seconds.</summary>
    public double StartSeconds { get; private set; }

    /// <summary>Gets the rate of the samples in Hz, as the source states it.</summary>
    public double RateHz { get; }

    /// <summary>Gets the samples in m/s².</summary>
    public ReadOnlySpan<double> Samples => samples.AsSpan(0, Count);

    /// <summary>Gives what has been collected so far, which is then left alone.</summary>
    public TransientSamples Copy() => new(this);

    /// <summary>Begins at a time in seconds.</summary>
    public void Begin(double seconds) => (Active, Count, StartSeconds) = (true, 0, seconds);

    /// <summary>Ends, or forgets.</summary>
    public void End() => (Active, Done) = (false, true);

    /// <summary>Takes the next samples, in m/s², as far as there is room, each raised by an offset.</summary>
    public void Take(ReadOnlySpan<double> line, double offset = 0)
    {
        var taken = Math.Min(line.Length, samples.Length - Count);
        for (var n = 0; n < taken; n++)
        {
            samples[Count++] = line[n] + offset;
        }
    }
}
