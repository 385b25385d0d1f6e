using System.Globalization;

namespace StrokeWatch.Samples.Quantities;

/// <summary>A length, kept in metres; readers and factories say the unit.</summary>
public readonly record struct Length : IComparable<Length>
{
    /// <summary>Metres in an inch, exact by the international yard and pound agreement of 1959.</summary>
    public const double MetresPerInch = 0.0254;

    private Length(double metres) => Metres = metres;

    /// <summary>Gets the length in metres.</summary>
    public double Metres { get; }

    /// <summary>Gets the length in millimetres.</summary>
    public double Millimetres => Metres * 1e3;

    /// <summary>Gets the length in inches.</summary>
    public double Inches => Metres / MetresPerInch;

    /// <summary>Makes a length from metres; NaN and infinities are refused.</summary>
    public static Length FromMetres(double metres) => double.IsFinite(metres)
        ? new(metres)
        : throw new ArgumentOutOfRangeException(nameof(metres), metres, "A length is a finite number.");

    /// <summary>Makes a length from millimetres; NaN and infinities are refused.</summary>
    public static Length FromMillimetres(double millimetres) => FromMetres(millimetres / 1e3);

    /// <summary>Makes a length from inches; NaN and infinities are refused.</summary>
    public static Length FromInches(double inches) => FromMetres(inches * MetresPerInch);

    /// <summary>Makes a length from thousandths of an inch; NaN and infinities are refused.</summary>
    public static Length FromMils(double mils) => FromMetres(mils * MetresPerInch / 1e3);

    /// <summary>Reads text such as <c>1.65 mm</c>, <c>0.065 in</c> or <c>65 mil</c>; the unit must be there, the decimal mark is a point.</summary>
    public static bool TryParse(string? text, out Length length)
    {
        length = default;
        var trimmed = text.AsSpan().Trim();
        var split = trimmed.LastIndexOfAnyInRange('0', '9') + 1;
        if (split == 0 || (split < trimmed.Length && trimmed[split] == '.'))
        {
            split = Math.Min(split + 1, trimmed.Length);
        }

        if (!double.TryParse(trimmed[..split], NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
        {
            return false;
        }

        double scale;
        switch (trimmed[split..].Trim())
        {
            case "mm": scale = 1e-3; break;
            case "in": scale = MetresPerInch; break;
            case "mil": scale = MetresPerInch / 1e3; break;
            default: return false;
        }

        length = new(value * scale);
        return true;
    }

    /// <inheritdoc/>
    public int CompareTo(Length other) => Metres.CompareTo(other.Metres);

    /// <summary>Writes both systems, millimetres first: <c>1.524 mm (0.0600 in)</c>, the same under every culture.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Millimetres:0.000} mm ({Inches:0.0000} in)");

    /// <summary>Writes an uncertainty in both systems, each rounded up so that no figure claims too much.</summary>
    public string RoundedUp() =>
        string.Create(CultureInfo.InvariantCulture, $"{Up(Millimetres, 1e3):0.000} mm ({Up(Inches, 1e4):0.0000} in)");

    // A billionth below the next step is that step, written in binary.
    private static double Up(double value, double steps) => Math.Ceiling(value * steps - 1e-6) / steps;
}
