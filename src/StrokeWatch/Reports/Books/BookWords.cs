using System.Globalization;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Html;
using StrokeWatch.Session;

namespace StrokeWatch.Reports.Books;

/// <summary>The words of the machine book for people, the same under every culture.</summary>
internal static class BookWords
{
    private const double Million = 1e6;

    /// <summary>Gives what a kind of entry is about.</summary>
    public static string Of(BookEntryKind kind) => kind switch
    {
        BookEntryKind.LeafSet => "leaf springs",
        BookEntryKind.AirGap => "air gap",
        BookEntryKind.Coil => "coil assembly",
        BookEntryKind.BoltTorque => "bolt torque",
        BookEntryKind.Cleaning => "cleaning",
        BookEntryKind.Inspection => "inspection",
        _ => "note",
    };

    /// <summary>Writes running in s as hours, rounded down: no more is claimed than was counted.</summary>
    public static string Hours(double seconds) => $"{Grouped(Math.Floor(seconds / 360 + 1e-9) / 10, 1)} h";

    /// <summary>Writes cycles, those beyond a million in millions.</summary>
    public static string Cycles(double cycles) => cycles < Million ? $"{Grouped(Math.Floor(cycles + 1e-6), 0)} cycles" : $"{Grouped(Math.Floor(cycles / 1e5 + 1e-9) / 10, 1)} million cycles";

    /// <summary>Writes a day in UTC.</summary>
    public static string Day(DateTimeOffset date) => date.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Gives what an entry says, beside when, who and about what.</summary>
    public static string Of(BookEntry entry) => string.Join("; ", new[]
    {
        entry.Rear is { } rear ? $"rear {Stack(rear)}" : null,
        entry.Front is { } front ? $"front {Stack(front)}" : null,
        entry.GapMetres is { } gap ? Figure.Both(gap) : null,
        entry.TorqueNewtonMetres is { } torque ? $"{Figure.Of(torque, 1)} N·m ({Figure.Of(torque / NewtonMetresPerPoundFoot, 1)} lbf·ft)" : null,
        entry.Text,
    }.OfType<string>().DefaultIfEmpty("done"));

    /// <summary>Gives a stack as it stands in the book in words; as it stands there where it is none.</summary>
    public static string Stack(string text) => StackText.Read(text, out _) is { } stack ? Stacks.Words(stack) : text;

    /// <summary>Gives what was run at an entry.</summary>
    public static string At(BookEntry entry) => entry is { AtSeconds: { } seconds, AtCycles: { } cycles } ? $"{Hours(seconds)}, {Cycles(cycles)}" : "before anything was counted";

    /// <summary>Gives when in the machine's life an entry was made, to stand in a sentence.</summary>
    public static string When(BookEntry entry) => entry.AtSeconds is null ? At(entry) : $"at {At(entry)}";

    /// <summary>1 lbf·ft in N·m: 0.45359237 kg × 9.80665 m/s² × 0.3048 m, exact by definition of pound, standard gravity and foot.</summary>
    private const double NewtonMetresPerPoundFoot = 0.45359237 * 9.80665 * 0.3048;

    private static string Grouped(double value, int digits) => value.ToString($"#,0{(digits > 0 ? ".0" : "")}", CultureInfo.InvariantCulture).Replace(",", "\u202F", StringComparison.Ordinal);
}
