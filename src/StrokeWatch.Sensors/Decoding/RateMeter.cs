namespace StrokeWatch.Sensors.Decoding;

/// <summary>
/// A measurement of a sampling rate: samples counted against a clock, from the first to the last of a long span.
/// </summary>
/// <remarks>
/// It answers first after ten seconds and then only when the span has doubled, so that the rate in use seldom changes. From
/// about eleven minutes on the span begins anew, so that a rate that drifts with temperature is followed.
/// </remarks>
internal sealed class RateMeter
{
    private const double FirstSpanSeconds = 10;
    private const double LongestSpanSeconds = 640;
    private double startSeconds;
    private long startSamples;
    private double answerAt;
    private bool started;

    /// <summary>Gets the rate in Hz; null before the first span is complete.</summary>
    public double? RateHz { get; private set; }

    /// <summary>Forgets the span but not the answer: samples were lost or the clock began anew.</summary>
    public void Restart() => started = false;

    /// <summary>Notes that a sample, by its running number, was taken at a time in seconds.</summary>
    public void Note(double seconds, long sample)
    {
        if (!started || seconds < startSeconds || sample < startSamples)
        {
            Begin(seconds, sample);
            return;
        }

        var span = seconds - startSeconds;
        if (span < answerAt || sample == startSamples)
        {
            return;
        }

        RateHz = (sample - startSamples) / span;
        answerAt *= 2;
        if (answerAt > LongestSpanSeconds)
        {
            Begin(seconds, sample);
            answerAt = LongestSpanSeconds;
        }
    }

    private void Begin(double seconds, long sample)
    {
        startSeconds = seconds;
        startSamples = sample;
        answerAt = FirstSpanSeconds;
        started = true;
    }
}
