using System.Globalization;
using System.Text.Json;

namespace StrokeWatch.Reports.Sheets;

/// <summary>One figure of a sheet: for people in words, for programs as a number.</summary>
/// <param name="Name">What it is, in words.</param>
/// <param name="Key">Its key in JSON, with its unit.</param>
/// <param name="Words">It in words.</param>
/// <param name="Value">It as a number; null where there is none.</param>
/// <param name="Reason">Why there is none; null where there is one.</param>
internal sealed record SheetFact(string Name, string Key, string Words, double? Value, string? Reason = null)
{
    /// <summary>Makes a length, both systems in words, millimetres in JSON.</summary>
    public static SheetFact Length(string name, string key, double metres) => new(name, key, Samples.Quantities.Length.FromMetres(metres).ToString(), metres * 1e3);

    /// <summary>Makes a number with its unit.</summary>
    public static SheetFact Number(string name, string key, double value, int digits, string unit) =>
        new(name, key, $"{value.ToString($"F{digits}", CultureInfo.InvariantCulture)}{(unit.Length > 0 ? " " + unit : "")}", value);

    /// <summary>Makes one that cannot be told.</summary>
    public static SheetFact None(string name, string key, string reason) => new(name, key, reason, null, reason);

    /// <summary>Writes it.</summary>
    public void Write(Utf8JsonWriter json)
    {
        ReplayJson.Number(json, Key, Value, 6);
        if (Value is null)
        {
            json.WriteString($"{Key}_reason", Reason);
        }
    }
}
