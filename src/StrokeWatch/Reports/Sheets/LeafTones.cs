using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Springs;

namespace StrokeWatch.Reports.Sheets;

/// <summary>The tones of single leaves: between their clamps, where none must sit on a harmonic of the drive, and held by one end, where a whole leaf rings.</summary>
internal static class LeafTones
{
    /// <summary>A tone this near to a harmonic, in percent, is told; above this order harmonics lie so close that every leaf has one, and carry little force (common practice, no source).</summary>
    private const double Near = 3, LastOrder = 12;

    /// <summary>Gives the table, the thinnest first, for thicknesses in metres; null where the leaves' density is not known.</summary>
    public static SheetTable? Table(SpringDescription springs, IEnumerable<double> thicknesses, double driveHz)
    {
        if (springs.Density is not { } density)
        {
            return null;
        }

        var rows = new List<(string Words, IReadOnlyList<double?> Numbers)>();
        foreach (var thickness in thicknesses.Select(metres => Math.Round(metres, 7)).Distinct().Order())
        {
            double Tone(LeafEnds ends) => LeafSpring.OwnFrequencyHz(springs.Modulus, thickness, springs.LengthMetres, density, ends);
            var own = Tone(LeafEnds.Clamped);
            var order = Math.Max(1, Math.Round(own / driveHz));
            rows.Add(("", [
                thickness * 1e3,
                LeafSpring.Stiffness(springs.Modulus, springs.WidthMetres, thickness, springs.LengthMetres) / 1e3,
                own,
                order,
                100 * ((own / (order * driveHz)) - 1),
                Tone(LeafEnds.Free),
            ]));
        }

        return new(
            "leaves",
            [("", "", 0), ("one leaf, mm", "thickness_mm", 3), ("N/mm", "stiffness_n_per_mm", 0), ("own tone in its clamps, Hz", "own_hz", 0), ("nearest harmonic", "nearest_harmonic", 0), ("away from it, %", "away_percent", 1), ("tone held by one end, Hz", "one_end_hz", 0)],
            rows)
        { Title = "Single leaves" };
    }

    /// <summary>Says what the tones mean.</summary>
    public static IEnumerable<string> Notes(SpringDescription springs, SheetTable? tones)
    {
        if (tones is null || springs.Density is not { } density)
        {
            yield return "the feeder file gives no density_kg_m3 of the leaves and they are not steel: nothing is said of a leaf's own tone";
            yield break;
        }

        yield return string.Create(CultureInfo.InvariantCulture, $"own tones are those of a bare leaf of {density:0} kg/m³ over the free length, rigidly clamped: real clamps make them lower by some percent; a leaf held in a vice by one end, that length standing out, rings near the last column: one that is clearly lower than its like, or dull, is suspect");
        var near = tones.Rows.Where(row => row.Numbers[3] <= LastOrder && Math.Abs(row.Numbers[4]!.Value) < Near).Select(row => string.Create(CultureInfo.InvariantCulture, $"{row.Numbers[0]:0.###} mm near harmonic {row.Numbers[3]:0}")).ToList();
        yield return near.Count == 0
            ? string.Create(CultureInfo.InvariantCulture, $"no leaf's own tone lies within {Near:0} % of one of the drive's first {LastOrder:0} harmonics")
            : string.Create(CultureInfo.InvariantCulture, $"own tone within {Near:0} % of one of the drive's first {LastOrder:0} harmonics, where leaves may sing and tire: {string.Join("; ", near)}");
    }
}
