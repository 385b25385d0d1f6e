namespace StrokeWatch.Sensors.Converters;

/// <summary>True rms of stamped samples that need not be evenly spaced, over about a second of whole cycles. Pure; nothing is allocated a sample.</summary>
/// <remarks>
/// Between two samples the square is taken as a straight line (trapezoid; exact for evenly spaced samples of whole cycles), so that a late sample weighs what it stands for. The mean is taken off: a converter's input that only takes voltages above zero has
/// its transducer's zero in the middle. What lies in a hole longer than a quarter of a cycle is left out;
/// a second of which more than a fifth is left out has no value. A hole in a second of fifty cycles costs the rms 1 % at most, for half a cycle that is missing.
/// </remarks>
public sealed class RmsTally
{
    private readonly double spanSeconds;
    private readonly double longestHole;
    private double covered;
    private double begun = double.NaN;
    private double lastTime;
    private double lastValue;
    private double first;
    private double sum;
    private double square;
    private bool railed;

    /// <summary>Makes a tally for a mains frequency in Hz.</summary>
    public RmsTally(double mainsHz)
    {
        spanSeconds = Math.Round(mainsHz) / mainsHz;
        longestHole = 0.25 / mainsHz;
    }

    private const double LeastCovered = 0.8;

    /// <summary>Gets how many seconds were given up because samples were missing.</summary>
    public long Holes { get; private set; }

    /// <summary>Takes a sample at a time in s, in the converter's volts; null where it stands at an end of its range. Gives the rms once a second is whole.</summary>
    /// <param name="seconds">The time.</param>
    /// <param name="volts">The voltage.</param>
    /// <param name="rms">The true rms in V; null where the second holds a sample at an end of the range.</param>
    public bool Take(double seconds, double? volts, out double? rms)
    {
        rms = null;
        railed |= volts is null;
        var value = volts ?? lastValue;
        if (double.IsNaN(begun))
        {
            Begin(seconds, value);
            railed = volts is null;
            return false;
        }

        // Against the first value, or squares of a great constant part would eat up the digits.
        var end = Math.Min(seconds, begun + spanSeconds);
        var share = seconds > lastTime ? (end - lastTime) / (seconds - lastTime) : 0;
        var (from, to) = (lastValue - first, lastValue - first + share * (value - lastValue));
        var part = seconds - lastTime > longestHole ? 0 : end - lastTime;
        var half = 0.5 * part;
        covered += part;
        sum += half * (from + to);
        square += half * (from * from + to * to);
        (lastTime, lastValue) = (seconds, value);
        if (seconds < begun + spanSeconds)
        {
            return false;
        }

        var (told, mean) = (covered >= LeastCovered * spanSeconds, sum / covered);
        Holes += told ? 0 : 1;
        rms = railed || !told ? null : Math.Sqrt(Math.Max(0, square / covered - mean * mean));
        Begin(seconds, value);
        railed = volts is null;
        return told;
    }

    private void Begin(double seconds, double value)
    {
        (begun, lastTime, lastValue, first) = (seconds, seconds, value, value);
        (sum, square, covered) = (0, 0, 0);
    }
}
