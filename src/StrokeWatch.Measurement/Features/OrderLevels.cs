using System.Runtime.CompilerServices;

namespace StrokeWatch.Measurement.Features;

/// <summary>What one steady window sounds like beside its stroke: orders, parts of orders and what is left over; single precision, for many are kept.</summary>
public readonly record struct OrderLevels
{
    /// <summary>The number of orders that are told.</summary>
    public const int Orders = 10;

    private readonly Amplitudes amplitudes;

    /// <summary>Makes the levels from the amplitudes of orders 1 to 10 along the line of action in m/s²; 0 where an order does not stand out and was not fitted.</summary>
    public OrderLevels(ReadOnlySpan<float> ordersAlong)
    {
        for (var i = 0; i < Math.Min(Orders, ordersAlong.Length); i++)
        {
            amplitudes[i] = ordersAlong[i];
        }
    }

    /// <summary>Gets the second order over the fundamental as a complex number's real part, phases counted from the fundamental's.</summary>
    public float SecondReal { get; init; }

    /// <summary>Gets the imaginary part of the second order over the fundamental.</summary>
    public float SecondImaginary { get; init; }

    /// <summary>Gets the real part of the third order over the fundamental.</summary>
    public float ThirdReal { get; init; }

    /// <summary>Gets the imaginary part of the third order over the fundamental.</summary>
    public float ThirdImaginary { get; init; }

    /// <summary>Gets the r.m.s. amplitude of orders 2 to 10 across the line of action, in m/s²; 0 with one axis.</summary>
    public float Across { get; init; }

    /// <summary>Gets the amplitude at half the drive's frequency along the line, in m/s².</summary>
    public float Half { get; init; }

    /// <summary>Gets the amplitude at a third of the drive's frequency along the line, in m/s².</summary>
    public float Third { get; init; }

    /// <summary>Gets the r.m.s. along the line of what lies below about the drive's frequency and belongs to no order, in m/s².</summary>
    public float Slow { get; init; }

    /// <summary>Gets the r.m.s. of one axis that belongs to no order, in m/s².</summary>
    public float Noise { get; init; }

    /// <summary>Gives the amplitude of an order, 1 to 10, along the line of action in m/s².</summary>
    public float Order(int order) => amplitudes[order - 1];

    [InlineArray(Orders)]
    private struct Amplitudes
    {
        private float first;
    }
}
