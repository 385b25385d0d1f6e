using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Windows;

/// <summary>What of a window is needed to listen to it after the next one has been measured: its line and its harmonics. Used again and again; storage grows to what is needed and stays.</summary>
public sealed class KeptLine
{
    private readonly KeptHarmonics fit = new();
    private readonly LineAside aside = new();
    private double[] line = [];
    private double[] harmonics = [];
    private double[] direction = [];
    private StrikeMemory? memory;
    private int count;

    /// <summary>Gets the harmonics.</summary>
    internal IWindowHarmonics Fit => fit;

    /// <summary>Gets the acceleration along the line of action, in m/s².</summary>
    internal ReadOnlySpan<double> Samples => line.AsSpan(0, count);

    /// <summary>Gets the line's harmonics.</summary>
    internal LineHarmonics Line
    {
        get
        {
            var orders = fit.Orders + 1;
            return new(harmonics.AsSpan(0, orders), harmonics.AsSpan(orders, orders), direction);
        }
    }

    /// <summary>Gets the line without the axis that a range which is not stated would cut first.</summary>
    internal LineAside Aside => aside;

    /// <summary>Gets the sampling rate in Hz.</summary>
    internal double RateHz { get; private set; }

    /// <summary>Gets whether the levels of orders are wanted: the window counts.</summary>
    internal bool Counts { get; private set; }

    /// <summary>Gets what the window showed of blows once it has been listened to.</summary>
    internal HeardBlows Heard { get; } = new();

    /// <summary>Compares a window that has been listened to with those before it and completes its reading. Windows of one sensor must come in their order, on one thread.</summary>
    public WindowReading Compare(in WindowReading reading) => memory?.Compare(reading, this) ?? reading;

    /// <summary>Keeps a window.</summary>
    internal void Keep(ReadOnlySpan<double> samples, IWindowHarmonics window, LineHarmonics along, double rateHz, bool counts, StrikeMemory remembers, LineAside? apart)
    {
        memory = remembers;
        aside.Keep(apart);
        fit.Keep(window);
        (count, RateHz, Counts) = (samples.Length, rateHz, counts);
        var orders = fit.Orders + 1;
        Grow(ref line, count);
        Grow(ref harmonics, 2 * orders);
        if (direction.Length != along.Direction.Length)
        {
            direction = new double[along.Direction.Length];
        }

        samples.CopyTo(line);
        along.LineCosine[..orders].CopyTo(harmonics);
        along.LineSine[..orders].CopyTo(harmonics.AsSpan(orders));
        along.Direction.CopyTo(direction);
    }

    private static void Grow(ref double[] storage, int length)
    {
        if (storage.Length < length)
        {
            storage = new double[length];
        }
    }
}
