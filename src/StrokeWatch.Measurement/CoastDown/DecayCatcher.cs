namespace StrokeWatch.Measurement.CoastDown;

/// <summary>Collects the line acceleration from a stop on and, when it has swung out, finds the free decay in it.</summary>
internal sealed class DecayCatcher(double rateHz, double nominalHz)
{
    private const double LongestSeconds = 4;
    private const double SteadyShare = 0.85;
    private const double EndShare = 0.03;
    private const double SearchSpan = 0.3;

    private readonly double[] samples = new double[(int)Math.Ceiling(LongestSeconds * rateHz) + 1];
    private int count;
    private double startSeconds;

    /// <summary>Gets whether a decay is being collected.</summary>
    public bool Active { get; private set; }

    /// <summary>Begins with a window in which the stroke falls.</summary>
    public void Begin(double seconds) => (Active, count, startSeconds) = (true, 0, seconds);

    /// <summary>Forgets what was collected.</summary>
    public void Abandon() => Active = false;

    /// <summary>Takes the next samples, in m/s².</summary>
    public void Take(ReadOnlySpan<double> line)
    {
        var taken = Math.Min(line.Length, samples.Length - count);
        line[..taken].CopyTo(samples.AsSpan(count));
        count += taken;
    }

    /// <summary>Ends the collection and fits the decay.</summary>
    /// <param name="clockError">Relative error of the sensor's clock.</param>
    public DecayReading? Finish(double clockError)
    {
        Active = false;
        var cycle = (int)Math.Round(rateHz / nominalHz);
        var cycles = count / Math.Max(1, cycle);
        if (cycle < 3 || cycles < 6)
        {
            return null;
        }

        var steady = 0.0;
        for (var k = 0; k < cycles; k++)
        {
            steady = Math.Max(steady, Swing(k, cycle));
        }

        var from = 0;
        for (var k = 0; k < cycles && from == k; k++)
        {
            from = Swing(k, cycle) > SteadyShare * steady ? k + 1 : from;
        }

        // The magnet's flux takes about a cycle to die.
        from++;
        var to = from;
        var floor = Math.Max(EndShare * steady, 2 * Swing(cycles - 1, cycle));
        while (to < cycles && Swing(to, cycle) > floor)
        {
            to++;
        }

        if (to - from < 5)
        {
            return null;
        }

        var rate = rateHz * (1 + clockError);
        var seconds = startSeconds + from * cycle / rateHz;
        return DecayFit.Fit(
            samples.AsSpan(from * cycle, (to - from) * cycle), rate, nominalHz * (1 - SearchSpan), nominalHz * (1 + SearchSpan), seconds);
    }

    private double Swing(int index, int cycle)
    {
        var part = samples.AsSpan(index * cycle, cycle);
        double sum = 0, square = 0;
        foreach (var value in part)
        {
            sum += value;
            square += value * value;
        }

        return Math.Sqrt(Math.Max(0, square - sum * sum / cycle) * 2 / cycle);
    }
}
