using System.Numerics;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Measurement.Quality;

/// <summary>
/// Follows what the feeder does from the fundamental's amplitude and phase in the parts of each window: still, starting, running, coasting down.
/// </summary>
/// <remarks>
/// A start is masked for five time constants of the machine's own decay (the start-up beat, after Harris, ch. 2): the constant is given, or
/// is read from the start itself, where the deviation from the steady motion shrinks by the same complex factor from part to part.
/// </remarks>
internal sealed class MotionTracker(double stillBelowMetres, double? settleSeconds)
{
    private const double LongestSettle = 15;
    private const double StartSpread = 0.05;
    private const double RunDrift = 0.10;
    private const double RunSpread = 0.35;
    private const double Fallen = 0.6;

    /// <summary>What stands at a smaller share of the stroke before is what a neighbour leaves of it.</summary>
    private const double LeastFallen = 0.3;

    private double startedAt;
    private double maskedUntil;
    private double steady, previous;
    private bool fell;

    /// <summary>Gets what the feeder did in the last window.</summary>
    public MotionState State { get; private set; }

    /// <summary>Gets why the last window does not count; null where it does.</summary>
    public string? Reason { get; private set; }

    /// <summary>
    /// Gets whether the last window is worth listening to: the tray runs, or fell without having stood still and swings as far as in the window before. Hard hammering takes a part of the swing and shakes the rest, which
    /// looks like a stop and a start.
    /// </summary>
    public bool Swings { get; private set; }

    /// <summary>Takes a window's parts.</summary>
    /// <param name="parts">The fundamental's peak-to-peak displacement in each part, complex, in metres.</param>
    /// <param name="noiseMetres">Standard deviation of each part's amplitude by noise, in metres.</param>
    /// <param name="start">Start of the window in seconds.</param>
    /// <param name="length">Length of the window in seconds.</param>
    /// <returns>True where the window is steady: running or still throughout.</returns>
    public bool Take(ReadOnlySpan<Complex> parts, double noiseMetres, double start, double length)
    {
        double least = double.MaxValue, most = 0, sum = 0, firstHalf = 0;
        for (var i = 0; i < parts.Length; i++)
        {
            var size = parts[i].Magnitude;
            (least, most, sum) = (Math.Min(least, size), Math.Max(most, size), sum + size);
            firstHalf += i < parts.Length / 2 ? size : 0;
        }

        var mean = sum / parts.Length;
        var slack = mean > 0 ? 4 * noiseMetres / mean : 0;
        var spread = mean > 0 ? (most - least) / mean - slack : 0;
        var drift = mean > 0 ? Math.Abs(sum - 2 * firstHalf) / (0.5 * sum) - slack : 0;
        var last = parts[^1].Magnitude;
        var level = Math.Abs(mean - previous) < RunDrift * mean;
        previous = mean;
        Reason = null;
        if (most < stillBelowMetres)
        {
            (State, Swings) = (MotionState.Stopped, false);
            return true;
        }

        if (State is MotionState.Stopped or MotionState.Unknown or MotionState.CoastingDown && Rising(parts, spread, last))
        {
            fell = State == MotionState.CoastingDown;
            Begin(parts, start, length);
        }

        var counts = Run(parts, mean, (most, last), (spread, drift, slack), level, (start, length));
        Swings = State == MotionState.Running || (level && mean > LeastFallen * steady && (State == MotionState.CoastingDown || (State == MotionState.Starting && fell)));
        return counts;
    }

    /// <summary>Forgets the state, after a gap of unknown length.</summary>
    public void Forget()
    {
        State = MotionState.Unknown;
        (steady, previous) = (0, 0);
    }

    private bool Run(ReadOnlySpan<Complex> parts, double mean, (double Most, double Last) size, (double Spread, double Drift, double Slack) change, bool level, (double Start, double Length) time)
    {
        var (spread, drift, slack) = change;
        if (State == MotionState.Stopped)
        {
            Reason = "the tray moved for a moment";
            return false;
        }

        if (State == MotionState.Starting)
        {
            return Starting(parts, spread, drift, time.Start, time.Length, mean);
        }

        var stands = level || (spread + slack < RunSpread && drift + slack < RunDrift);
        if (State == MotionState.CoastingDown && mean > LeastFallen * steady && stands)
        {
            // It fell and now stands: a supply that sagged, or a strike that takes the swing. A tray that swings out loses more than this within a window, and from one to the next; hammering shakes what a part shows, but not a whole window.
            (State, steady) = (MotionState.Running, mean);
        }

        if (State == MotionState.CoastingDown || size.Last < Fallen * Math.Max(size.Most, steady) && size.Last < 0.9 * parts[^2].Magnitude)
        {
            State = MotionState.CoastingDown;
            Reason = "the feeder is coasting down";
            return false;
        }

        State = MotionState.Running;
        steady = mean;
        if (drift > RunDrift || spread > RunSpread)
        {
            Reason = "the stroke changes within the window";
            return false;
        }

        return true;
    }

    private bool Rising(ReadOnlySpan<Complex> parts, double spread, double last) => State switch
    {
        MotionState.Stopped => last >= stillBelowMetres,
        MotionState.Unknown => spread > StartSpread && parts[0].Magnitude < 0.8 * last,
        _ => last > 1.2 * parts[0].Magnitude && last > Fallen * steady,
    };

    private void Begin(ReadOnlySpan<Complex> parts, double start, double length)
    {
        var part = 0;
        while (part < parts.Length - 1 && parts[part].Magnitude < stillBelowMetres)
        {
            part++;
        }

        startedAt = start + length * part / parts.Length;
        maskedUntil = settleSeconds is { } known ? startedAt + known : double.PositiveInfinity;
        State = MotionState.Starting;
    }

    private bool Starting(ReadOnlySpan<Complex> parts, double spread, double drift, double start, double length, double mean)
    {
        if (settleSeconds is null && start >= startedAt)
        {
            maskedUntil = Math.Min(startedAt + LongestSettle, startedAt + 5 * TimeConstant(parts, length, start - startedAt));
        }

        if (start >= maskedUntil && spread < StartSpread && drift < StartSpread)
        {
            State = MotionState.Running;
            steady = mean;
            return true;
        }

        if (start >= startedAt + LongestSettle)
        {
            State = MotionState.Running;
        }

        Reason = "the feeder is starting up";
        return false;
    }

    /// <summary>Reads the decay's time constant from the differences of successive parts, which shrink by exp(-h/τ) each; a settled window gives what is already past.</summary>
    private static double TimeConstant(ReadOnlySpan<Complex> parts, double length, double past)
    {
        Complex product = 0;
        double square = 0, size = 0;
        for (var i = 0; i + 2 < parts.Length; i++)
        {
            var (a, b) = (parts[i + 1] - parts[i], parts[i + 2] - parts[i + 1]);
            product += Complex.Conjugate(a) * b;
            square += a.Magnitude * a.Magnitude;
            size = Math.Max(size, parts[i].Magnitude);
        }

        var settled = past / 5;
        if (square < 1e-4 * size * size)
        {
            return settled;
        }

        var factor = (product / square).Magnitude;
        return factor is > 0.05 and < 0.99 ? -length / parts.Length / Math.Log(factor) : settled;
    }
}
