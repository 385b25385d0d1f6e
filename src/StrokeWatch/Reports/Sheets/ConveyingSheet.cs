using System.Globalization;
using StrokeWatch.Machine.Conveying;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Reports.Sheets;

/// <summary>Throw number and conveying speed over stroke, as far as the one-hop model holds.</summary>
internal static class ConveyingSheet
{
    /// <summary>Makes the sheet for a drive angle above the deck in degrees and a coefficient of friction.</summary>
    public static Sheet Make(FeederDescription feeder, IReadOnlyList<TuningTrial> trials, double angleDegrees, double friction)
    {
        var (band, hertz, angle) = (feeder.Band, feeder.Drive.NominalHz, angleDegrees * Math.PI / 180);
        var middle = 0.5 * (band.Low.Metres + band.High.Metres);
        var ends = Throw.OnePeriod / Throw.Number(1, hertz, angle);
        var takesOff = 1 / Throw.Number(1, hertz, angle);
        var measured = trials.Count > 0 ? trials[^1].FullVoltageStroke(feeder) : null;
        List<(string Words, double Stroke)> strokes = [("bottom of the band", band.Low.Metres), ("middle of the band", middle), ("top of the band", band.High.Metres), ("over-stroke limit", band.Limit.Metres)];
        if (measured is { } last)
        {
            strokes.Insert(0, ("last trial", last));
        }

        var most = Math.Max(1.2 * band.Limit.Metres, 1.05 * ends);
        List<(double X, double Y)> line = [.. CurveSheet.Steps(takesOff, ends, 120).Select(stroke => (1e3 * stroke, Throw.Speed(stroke, hertz, angle) ?? double.NaN))];
        var ceiling = Throw.Ceiling(hertz, angle);
        var (forward, back) = Throw.SlideOnset(friction, angle);
        var basis = measured ?? middle;
        SheetFact Speed(string name, string key, double stroke) => Throw.Speed(stroke, hertz, angle) is { } speed
            ? SheetFact.Number(name, key, speed, 3, "m/s")
            : SheetFact.None(name, key, Throw.Number(stroke, hertz, angle) > Throw.OnePeriod ? "outside the model: a flight outlasts one cycle, the throw number is above 3.297" : "nothing takes off: the throw number is below 1, material slides at most");
        return new()
        {
            Name = "conveying",
            Title = "Throw and conveying speed",
            Feeder = feeder.Name,
            From = measured is null ? "the feeder file: middle of the band" : "the last trial's stroke at full voltage",
            Facts =
            [
                SheetFact.Length("stroke", "stroke_pp_mm", basis),
                SheetFact.Number("drive", "drive_hz", hertz, 2, "Hz"),
                SheetFact.Number("drive angle above the deck", "drive_angle_deg", angleDegrees, 1, "°"),
                SheetFact.Number("machine number", "machine_number", Throw.MachineNumber(basis, hertz), 3, "g"),
                SheetFact.Number("throw number", "throw_number", Throw.Number(basis, hertz, angle), 3, ""),
                Speed("ideal speed", "speed_m_s", basis),
                SheetFact.Number("no one-hop flight is faster than", "speed_ceiling_m_s", ceiling, 3, "m/s"),
                SheetFact.Length("material takes off from a stroke of", "take_off_stroke_mm", takesOff),
                SheetFact.Length("the model ends at a stroke of", "model_end_stroke_mm", ends),
                SheetFact.Number("slides forward from machine number", "slide_forward_machine_number", forward, 3, string.Create(CultureInfo.InvariantCulture, $"(friction {friction:0.##})")),
                SheetFact.Number("slides back from machine number", "slide_back_machine_number", back, 3, ""),
            ],
            Tables = [new(
                "table",
                [("at", "at", 0), ("stroke, mm", "stroke_pp_mm", 3), ("stroke, in", "stroke_pp_in", 4), ("machine number", "machine_number", 2), ("throw number", "throw_number", 3), ("flight, cycles", "flight_cycles", 3), ("speed, m/s", "speed_m_s", 3)],
                [.. strokes.Select(row => (row.Words, (IReadOnlyList<double?>)[
                    1e3 * row.Stroke, row.Stroke / 0.0254, Throw.MachineNumber(row.Stroke, hertz), Throw.Number(row.Stroke, hertz, angle), Throw.FlightRatio(Throw.Number(row.Stroke, hertz, angle)), Throw.Speed(row.Stroke, hertz, angle)]))])],
            Plot = new()
            {
                Says = "Ideal speed of thin material over stroke, from where it takes off to where a flight lasts one whole cycle; beyond, nothing is drawn because nothing is known.",
                XWords = "stroke, peak to peak, mm",
                YUnit = "m/s",
                Keys = ("stroke_pp_mm", "speed_m_s"),
                X = (0, 1e3 * most),
                Y = (0, 1.1 * ceiling),
                Lines = [new("speed", "ink", line)],
                Marks =
                [
                    new(band.Low.Millimetres, double.NaN, "", "edge"),
                    new(band.High.Millimetres, double.NaN, "band", "edge"),
                    new(band.Limit.Millimetres, double.NaN, "limit", "limit"),
                    .. Throw.Speed(basis, hertz, angle) is { } at ? [new SheetMark(1e3 * basis, at, "here", "sample")] : Array.Empty<SheetMark>(),
                ],
            },
            Notes =
            [
                Throw.Number(basis, hertz, angle) > Throw.OnePeriod
                    ? string.Create(CultureInfo.InvariantCulture, $"at this stroke the throw number {Throw.Number(basis, hertz, angle):0.00} is above 3.297: a grain is still in the air when the deck comes up again, and no speed is told; measure it")
                    : "the throw number lies where one hop a cycle holds (1 to 3.297; usual are 1 to 3)",
                "the speed is that of a thin layer of single grains on a level deck that land dead and do not slip; a deep bed, air drag on fine powder and moisture slow it down, so that a half of it is not unusual (common practice, no source)",
                "from where friction alone carries material is told by the machine number: below the first figure nothing moves",
            ],
        };
    }
}
