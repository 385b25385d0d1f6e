using System.Globalization;
using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Reports.Sheets;

/// <summary>What weight on the tray does: how much may be added before the stroke leaves its limit and before the reverse side is reached.</summary>
internal static class MassSheet
{
    /// <summary>Makes the sheet.</summary>
    public static Sheet Make(SheetInput input)
    {
        var (model, state, band) = (input.Model, input.State, input.Feeder.Band);
        var stiffness = input.Stiffness;
        var tray = state.TrayKilograms + input.TrayChange;
        double? ToDrive(FeederState machine)
        {
            var reduced = (model.Stiffness(machine, input.Rear, machine.Clamping) - machine.Softening) / Math.Pow(2 * Math.PI * model.DriveHz, 2);
            return reduced < machine.BodyKilograms ? (reduced * machine.BodyKilograms / (machine.BodyKilograms - reduced)) - machine.TrayKilograms - input.TrayChange : null;
        }

        double Stroke(double added) => Math.Exp(model.LogStroke(state, stiffness, input.TrayChange + added));
        var reverse = ToDrive(state);
        var most = Math.Max(0.15 * tray, 1.4 * Math.Max(0, Math.Min(reverse ?? 0, 2 * tray)));
        var from = -Math.Min(0.15, most / tray) * tray;
        List<(double X, double Y)> line = [.. CurveSheet.Steps(from, most, 161).Select(added => (added, 1e3 * Stroke(added)))];
        var over = reverse is > 0 && Stroke(0) < band.Limit.Metres ? CurveSheet.Steps(0, reverse.Value, 4001).Cast<double?>().FirstOrDefault(added => Stroke(added!.Value) > band.Limit.Metres) : null;
        var cautious = input.Range(machine => ToDrive(machine) ?? 1e9)?.Low;
        var top = Math.Min(2.2 * band.Limit.Millimetres, Math.Max(1.3 * band.Limit.Millimetres, 1.1 * line.Max(point => point.Y)));
        return new()
        {
            Name = "mass",
            Title = "Weight on the tray",
            Feeder = input.Feeder.Name,
            From = input.From,
            Facts =
            [
                SheetFact.Number("tray with armature", "tray_kg", tray, 1, "kg"),
                SheetFact.Length("stroke now", "stroke_pp_mm", input.Stroke),
                SheetFact.Number("natural over drive frequency", "tuning_ratio", FeederModel.FreeHz(state, stiffness, input.TrayChange) / model.DriveHz, 4, ""),
                reverse is { } kilograms
                    ? SheetFact.Number("weight to the reverse side", "tray_mass_to_reverse_kg", kilograms, 2, kilograms < 0 ? "kg: it is there already, so much too heavy" : "kg")
                    : SheetFact.None("weight to the reverse side", "tray_mass_to_reverse_kg", "no weight brings it there: the springs are too stiff for this body"),
                cautious is { } low and < 1e8 ? SheetFact.Number("  with 97 % certainty more than", "tray_mass_to_reverse_low_kg", low, 2, "kg") : SheetFact.None("  with 97 % certainty more than", "tray_mass_to_reverse_low_kg", "needs trials"),
                over is { } limit ? SheetFact.Number("weight to the over-stroke limit", "tray_mass_to_limit_kg", limit, 2, "kg") : SheetFact.None("weight to the over-stroke limit", "tray_mass_to_limit_kg", Stroke(0) >= band.Limit.Metres ? "the stroke is over it already" : "the limit is not reached by weight"),
                SheetFact.Number("1 % of the tray's weight changes it by", "stroke_change_per_percent_percent", 100 * ((Stroke(0.01 * tray) / Stroke(0)) - 1), 2, "%"),
            ],
            Plot = new()
            {
                Says = "Stroke at full voltage over weight put on the tray (left of zero: taken off), the springs as they are. Hatched: the band.",
                XWords = "weight put on the tray, kg",
                YUnit = "mm",
                Keys = ("added_kg", "stroke_pp_mm"),
                X = (from, most),
                Y = (0, top),
                Inches = true,
                Band = (band.Low.Millimetres, band.High.Millimetres),
                Lines = [new("stroke", "ink", line)],
                Marks =
                [
                    new(double.NaN, band.Limit.Millimetres, "over-stroke limit", "limit"),
                    .. reverse is { } place ? [new SheetMark(place, double.NaN, "reverse side", "cycle")] : Array.Empty<SheetMark>(),
                    new(0, 1e3 * input.Stroke, "now", "sample"),
                ],
            },
            Notes =
            [
                string.Create(CultureInfo.InvariantCulture, $"weight means what moves with the tray as one body: liners, covers, a screen; loose material takes part only in part, and the more it is thrown the less; the natural frequency of the empty machine is {TwoMass.NaturalFrequencyHz(stiffness, FeederModel.Reduced(state, input.TrayChange)):0.0} Hz"),
                "on the normal side weight raises the stroke up to the top of the tuning curve, on the reverse side it lowers it; after a change of tray or liner the feeder is tuned anew",
            ],
        };
    }
}
