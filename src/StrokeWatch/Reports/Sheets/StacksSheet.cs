using System.Globalization;
using StrokeWatch.Machine.Springs;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Reports.Sheets;

/// <summary>The table of all rear stacks that stock and clamp allow: stiffness, share, natural frequency, stroke and stress.</summary>
internal static class StacksSheet
{
    private const int MostRows = 2000, MostNamed = 6;

    /// <summary>Makes the sheet.</summary>
    public static Sheet Make(SheetInput input)
    {
        var (model, state, springs, band) = (input.Model, input.State, input.Feeder.Springs!, input.Feeder.Band);
        var stock = new StackStock(springs, input.Rear);
        var perStroke = 0.5 * (1 + ((state.TrayKilograms + input.TrayChange) / state.BodyKilograms));
        var rows = new List<(string Words, IReadOnlyList<double?> Numbers)>();
        foreach (var counts in stock.All().Take((int)Math.Min(stock.Number, 200_000)))
        {
            var stack = stock.Stack(counts);
            var stiffness = model.Stiffness(state, stack, 0);
            var stroke = Math.Exp(model.LogStroke(state, stiffness, input.TrayChange));
            var stress = LeafSpring.Stress(springs.Modulus, stack.Max(layer => layer.ThicknessMetres), springs.LengthMetres, perStroke * band.High.Metres);
            rows.Add((string.Join(" + ", stack.Select(layer => string.Create(CultureInfo.InvariantCulture, $"{layer.Count} × {layer.ThicknessMetres * 1e3:0.###}"))), [
                stiffness / 1e3,
                100 * (1 - (model.Front(state) / stiffness)),
                FeederModel.FreeHz(state, stiffness, input.TrayChange),
                FeederModel.FreeHz(state, stiffness, input.TrayChange) / model.DriveHz,
                stroke < 4 * band.Limit.Metres ? 1e3 * stroke : null,
                stroke < 4 * band.Limit.Metres ? stroke / 0.0254 : null,
                stress / 1e6,
                springs.EnduranceStress / stress,
            ]));
        }

        rows.Sort((one, other) => one.Numbers[0]!.Value.CompareTo(other.Numbers[0]!.Value));
        var near = rows.Count <= MostRows ? rows : [.. rows.Where(row => row.Numbers[3] is > 0.95 and < 1.25).Take(MostRows)];
        var now = FeederModel.FreeHz(state, input.Stiffness, input.TrayChange);
        var inBand = rows.Where(row => row.Numbers[3] > 1 && row.Numbers[4] >= band.Low.Millimetres && row.Numbers[4] <= band.High.Millimetres).ToList();
        var tones = LeafTones.Table(springs, [.. stock.Thicknesses, .. springs.Front.Concat(input.Rear).Select(layer => layer.ThicknessMetres)], model.DriveHz);
        double X((string Words, IReadOnlyList<double?> Numbers) row) => row.Numbers[0]!.Value;
        double Y((string Words, IReadOnlyList<double?> Numbers) row) => row.Numbers[2]!.Value;
        var shown = rows.Count <= 600 ? rows : [.. rows.Where((_, i) => i % ((rows.Count / 600) + 1) == 0)];
        return new()
        {
            Name = "stacks",
            Title = "Rear spring stacks",
            Feeder = input.Feeder.Name,
            From = input.From,
            Facts =
            [
                SheetFact.Number("stacks that stock and clamp allow", "stacks", stock.Number, 0, ""),
                SheetFact.Number("of them expected in the band", "stacks_in_band", inBand.Count, 0, ""),
                SheetFact.Number("front stack, never changed", "front_n_per_mm", model.Front(state) / 1e3, 0, "N/mm"),
                SheetFact.Number("all springs now", "stiffness_n_per_mm", input.Stiffness / 1e3, 0, "N/mm"),
                SheetFact.Number("natural frequency now", "natural_frequency_hz", now, 2, "Hz"),
                SheetFact.Number("one leaf more of the thickest", "leaf_n_per_mm", model.RearLeaf(state, stock.Thicknesses[0]) / 1e3, 0, "N/mm"),
            ],
            Tables = [new(
                "table",
                [("leaves, mm", "leaves", 0), ("all springs, N/mm", "stiffness_n_per_mm", 0), ("rear share, %", "rear_share_percent", 1), ("natural, Hz", "natural_frequency_hz", 2), ("over drive", "tuning_ratio", 3), ("stroke, mm", "stroke_pp_mm", 3), ("stroke, in", "stroke_pp_in", 4), ("stress, MPa", "leaf_stress_mpa", 0), ("endures, times", "endurance_over_stress", 2)],
                near), .. tones is null ? Array.Empty<SheetTable>() : [tones]],
            Plot = new()
            {
                Says = "Natural frequency over the stiffness of all springs; one dot a stack. Right of where the line crosses the drive lies the normal side.",
                XWords = "stiffness of all springs, N/mm",
                YUnit = "Hz",
                Keys = ("stiffness_n_per_mm", "natural_frequency_hz"),
                X = (0.97 * rows.Min(X), 1.03 * rows.Max(X)),
                Y = (0.97 * rows.Min(Y), 1.03 * rows.Max(Y)),
                Lines = [new("stacks", "ribbon-edge", [.. rows.Count <= 600 ? rows.Select(row => (X(row), Y(row))) : shown.Select(row => (X(row), Y(row)))])],
                Marks = [.. shown.Select(row => new SheetMark(X(row), Y(row), "")), new(double.NaN, model.DriveHz, "drive", "limit"), new(input.Stiffness / 1e3, now, "now", "sample")],
            },
            Notes =
            [
                "stiffness goes with the cube of a leaf's thickness; stress is that of the thickest leaf at the top of the band, at the clamps, from the guided-leaf formula 3Etd/L²: fretting, scratches and rust are not in it",
                springs.EnduranceStress is null ? "the feeder file gives no endurance_stress_mpa, so that nothing is said of what the leaves endure" : "what the leaves endure is the feeder file's endurance_stress_mpa",
                .. LeafTones.Notes(springs, tones),
                inBand.Count == 0 ? "no stack is expected in the band on the normal side" : $"expected in the band on the normal side, leaves in mm: {string.Join("; ", inBand.Take(MostNamed).Select(row => row.Words))}{(inBand.Count > MostNamed ? "; and more in the table" : "")}; `tune advise` says how probable each is",
                near.Count < stock.Number ? string.Create(CultureInfo.InvariantCulture, $"of {stock.Number} stacks the table lists {near.Count}, those near the drive") : "all stacks are listed, the softest first; strokes above four times the limit are left out, nothing runs there",
            ],
        };
    }
}
