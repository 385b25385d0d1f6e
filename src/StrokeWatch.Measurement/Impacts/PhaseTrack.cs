namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// Follows the phase of a machine's fundamental from window to window. A supply keeps its frequency from one second to the next, so that the windows before say at what phase the next one finds the fundamental;
/// what it lags or leads by is the machine's own: friction, a load, contact.
/// </summary>
/// <remarks>Told by the window before the last as well: in the last one what now shows may have begun already, which moves its phase and, more, its frequency.</remarks>
internal sealed class PhaseTrack
{
    /// <summary>The frequency is a mean over so many windows: a grid's of ten seconds ago is not the one it has.</summary>
    private const int Longest = 4;
    private int seen;
    private double lastSeconds, lastRadians, lastHertz;
    private double earlierSeconds, earlierRadians, earlierHertz;

    /// <summary>Forgets all.</summary>
    public void Clear() => seen = 0;

    /// <summary>Turns the line about: the fundamental's phase by half a cycle.</summary>
    public void Turn() => (lastRadians, earlierRadians) = (lastRadians + Math.PI, earlierRadians + Math.PI);

    /// <summary>Takes a window's fundamental.</summary>
    /// <param name="seconds">The window's middle, in seconds.</param>
    /// <param name="radians">The phase there: the fundamental is a cosine of it.</param>
    /// <param name="hertz">The drive's frequency in Hz.</param>
    public void Take(double seconds, double radians, double hertz)
    {
        seen = Math.Min(Longest, seen + 1);
        (earlierSeconds, earlierRadians, earlierHertz) = seen > 1 ? (lastSeconds, lastRadians, lastHertz) : (seconds, radians, hertz);
        (lastSeconds, lastRadians, lastHertz) = (seconds, radians, seen == 1 ? hertz : lastHertz + ((hertz - lastHertz) / seen));
    }

    /// <summary>Tells by how much a window's fundamental is ahead of where it was expected; something must have been taken.</summary>
    /// <param name="seconds">The window's middle, in seconds.</param>
    /// <param name="radians">The phase there.</param>
    /// <param name="hertz">The drive's frequency in Hz.</param>
    public PhaseLead Of(double seconds, double radians, double hertz) => new(
        Wrapped(radians - lastRadians - (2 * Math.PI * lastHertz * (seconds - lastSeconds))),
        Wrapped(radians - earlierRadians - (2 * Math.PI * earlierHertz * (seconds - earlierSeconds))),
        seconds - lastSeconds,
        hertz - earlierHertz);

    private static double Wrapped(double radians) => Math.IEEERemainder(radians, 2 * Math.PI);
}
