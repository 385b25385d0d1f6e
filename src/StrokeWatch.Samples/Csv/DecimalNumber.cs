using System.Runtime.CompilerServices;

namespace StrokeWatch.Samples.Csv;

/// <summary>A decimal number as it stood in the text: sign, up to 19 digits and a power of ten.</summary>
/// <param name="Mantissa">The digits.</param>
/// <param name="Exponent">The power of ten they are multiplied by.</param>
/// <param name="Negative">Whether a minus stood before it.</param>
/// <param name="IsCut">Whether digits beyond the nineteenth were left out.</param>
internal readonly record struct DecimalNumber(ulong Mantissa, int Exponent, bool Negative, bool IsCut = false)
{
    /// <summary>The powers of ten that a double holds exactly.</summary>
    private static readonly double[] Powers =
    [
        1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
    ];

    /// <summary>Gives a power of ten, 0 to 22, as an exact double.</summary>
    public static double Power(int exponent) => Powers[exponent];

    /// <summary>Gives the nearest double where two exact doubles and one rounding reach it (Clinger's fast path); false elsewhere.</summary>
    public bool TryExact(out double value)
    {
        value = Mantissa;
        if (IsCut || Mantissa > 1UL << 53 || (uint)(Exponent + 22) > 44)
        {
            return false;
        }

        value = Exponent < 0 ? value / Powers[-Exponent] : value * Powers[Exponent];
        if (Negative)
        {
            value = -value;
        }

        return true;
    }

    /// <summary>Gives this number less another as a double, subtracting the digits themselves: clock readings since an epoch keep every digit.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double Minus(DecimalNumber other)
    {
        if (Exponent == other.Exponent && Negative == other.Negative && (Mantissa | other.Mantissa) >> 63 == 0 && Exponent is <= 0 and >= -22)
        {
            var digits = (long)Mantissa - (long)other.Mantissa;
            return (Negative ? -digits : digits) / Powers[-Exponent];
        }

        return MinusAny(other);
    }

    private double MinusAny(DecimalNumber other)
    {
        if (Exponent == other.Exponent && Negative == other.Negative && (Mantissa | other.Mantissa) >> 63 == 0)
        {
            var digits = (long)Mantissa - (long)other.Mantissa;
            return Scale(Negative ? -digits : digits, Exponent);
        }

        var exponent = Math.Min(Exponent, other.Exponent);
        var (shift, otherShift) = (Exponent - exponent, other.Exponent - exponent);
        if (shift > 18 || otherShift > 18)
        {
            return Approximate() - other.Approximate();
        }

        var difference = Signed(shift) - other.Signed(otherShift);
        return Scale((double)difference, exponent);
    }

    /// <summary>Gives the power of ten of the last digit that is not zero; null for zero.</summary>
    public int? LastPlace()
    {
        if (Mantissa == 0)
        {
            return null;
        }

        var (rest, exponent) = (Mantissa, Exponent);
        while (rest % 10 == 0)
        {
            rest /= 10;
            exponent++;
        }

        return exponent;
    }

    private static double Scale(double value, int exponent) => exponent switch
    {
        0 => value,
        < 0 and >= -22 => value / Powers[-exponent],
        > 0 and <= 22 => value * Powers[exponent],
        _ => value * Math.Pow(10, exponent),
    };

    private Int128 Signed(int shift)
    {
        var value = (Int128)Mantissa * (Int128)Powers[shift];
        return Negative ? -value : value;
    }

    private double Approximate() => Scale(Negative ? -(double)Mantissa : Mantissa, Exponent);
}
