using StrokeWatch.Machine.Magnet;

namespace StrokeWatch.Reports.Sheets;

/// <summary>Stroke over supply voltage.</summary>
internal static class VoltageSheet
{
    /// <summary>Makes the sheet.</summary>
    public static Sheet Make(SheetInput input)
    {
        var (band, stroke) = (input.Feeder.Band, input.Stroke);
        var biased = input.Feeder.Supply?.Biased == true;
        double At(double percent) => stroke * Math.Pow(percent / 100, Supply.StrokeExponent(biased));
        double For(double wanted) => 100 * Math.Pow(wanted / stroke, 1.0 / Supply.StrokeExponent(biased));
        List<(double X, double Y)> line = [.. CurveSheet.Steps(60, 115, 56).Select(percent => (percent, 1e3 * At(percent)))];
        var full = At(100) < band.Low.Metres ? "below the band" : At(100) > band.Limit.Metres ? "above the over-stroke limit" : At(100) > band.High.Metres ? "above the band" : "in the band";
        return new()
        {
            Name = "voltage",
            Title = "Stroke over voltage",
            Feeder = input.Feeder.Name,
            From = input.From,
            Facts =
            [
                SheetFact.Length("stroke at full voltage", "stroke_pp_mm", stroke),
                SheetFact.Length("at 90 % of it", "stroke_at_90_percent_mm", At(90)),
                SheetFact.Length("at 110 % of it", "stroke_at_110_percent_mm", At(110)),
                SheetFact.Number("bottom of the band at", "band_low_voltage_percent", For(band.Low.Metres), 1, "% of full voltage"),
                SheetFact.Number("top of the band at", "band_high_voltage_percent", For(band.High.Metres), 1, "% of full voltage"),
                SheetFact.Number("over-stroke limit at", "limit_voltage_percent", For(band.Limit.Metres), 1, "% of full voltage"),
            ],
            Tables = [new(
                "table",
                [("", "", 0), ("percent of full", "voltage_percent", 0), ("stroke, mm", "stroke_pp_mm", 3), ("stroke, in", "stroke_pp_in", 4)],
                [.. ((double[])[70, 75, 80, 85, 90, 95, 100, 105, 110]).Select(percent => ("", (IReadOnlyList<double?>)[percent, 1e3 * At(percent), At(percent) / 0.0254]))])],
            Plot = new()
            {
                Says = "Stroke of the empty tray over supply voltage. Hatched: the band.",
                XWords = "supply voltage, % of full",
                YUnit = "mm",
                Keys = ("voltage_percent", "stroke_pp_mm"),
                X = (60, 115),
                Y = (0, 1.08 * Math.Max(1.05 * band.Limit.Millimetres, line[^1].Y)),
                Inches = true,
                Band = (band.Low.Millimetres, band.High.Millimetres),
                Lines = [new("stroke", "ink", line)],
                Marks = [new(double.NaN, band.Limit.Millimetres, "over-stroke limit", "limit"), new(100, 1e3 * stroke, "full voltage", "sample")],
            },
            Notes =
            [
                $"at full voltage the stroke is expected {full}",
                biased
                    ? "the magnet has a flux of its own (magnet = \"biased\" under [supply]): stroke goes with the voltage itself as long as that flux is far above the alternating one and the supply is not phase-cut; a mains frequency other than its nominal one is not in this sheet"
                    : "stroke goes with the square of the voltage as long as the iron is not saturated and the supply is not phase-cut; a lower mains frequency at the same voltage raises the pull by the square of the ratio and moves the drive along the tuning curve as well, which is not in this sheet",
                $"tune at full voltage with an empty tray; a stroke read at less voltage is brought to full voltage by {(biased ? "full / read, and what is wrong in the voltage is as wrong in the stroke" : "(full / read)², and what is wrong in the voltage is wrong twice in the stroke")}",
            ],
        };
    }
}
