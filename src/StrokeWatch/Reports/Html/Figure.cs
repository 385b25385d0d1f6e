using System.Globalization;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports.Html;

/// <summary>Writes numbers for people, the same under every culture, with a true minus sign.</summary>
internal static class Figure
{
    /// <summary>Writes a number with a fixed count of decimals.</summary>
    public static string Of(double value, int digits)
    {
        var text = value.ToString($"F{digits.ToString(CultureInfo.InvariantCulture)}", CultureInfo.InvariantCulture);
        return text.TrimStart('-').All(c => c is '0' or '.') ? text.TrimStart('-') : text.Replace('-', '\u2212');
    }

    /// <summary>Writes a whole number with thin spaces between thousands.</summary>
    public static string Count(long value) => value.ToString("#,0", CultureInfo.InvariantCulture).Replace(",", "\u202F", StringComparison.Ordinal);

    /// <summary>Writes a length in millimetres, without its unit.</summary>
    public static string Millimetres(double metres, int digits = 3) => Of(metres * 1e3, digits);

    /// <summary>Writes a length in inches, without its unit.</summary>
    public static string Inches(double metres, int digits = 4) => Of(metres / Length.MetresPerInch, digits);

    /// <summary>Writes a length in both systems.</summary>
    public static string Both(double metres) => $"{Millimetres(metres)} mm ({Inches(metres)} in)";

    /// <summary>Writes an uncertainty in both systems, rounded up so that no figure claims too much.</summary>
    public static string BothUp(double metres) => Length.FromMetres(metres).RoundedUp();

    /// <summary>Writes an uncertainty in millimetres, rounded up.</summary>
    public static string MillimetresUp(double metres) => Of(Math.Ceiling(metres * 1e6 - 1e-6) / 1e3, 3);

    /// <summary>Writes a place in a drawing, to a hundredth of a unit.</summary>
    public static string Place(double value) => (Math.Round(value, 2) + 0.0).ToString("0.##", CultureInfo.InvariantCulture);
}
