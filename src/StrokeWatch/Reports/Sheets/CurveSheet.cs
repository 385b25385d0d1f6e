using System.Globalization;
using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Reports.Sheets;

/// <summary>The tuning curve: stroke over natural frequency as the rear stack is made softer or stiffer, with band, limit and trials.</summary>
internal static class CurveSheet
{
    private const int Points = 161, RibbonPoints = 61;

    /// <summary>Makes the sheet.</summary>
    public static Sheet Make(SheetInput input)
    {
        var (model, state, band, drive) = (input.Model, input.State, input.Feeder.Band, input.Model.DriveHz);
        var now = FeederModel.FreeHz(state, input.Stiffness, input.TrayChange);
        var (from, to) = (Math.Min(0.85 * drive, 0.97 * now), Math.Max(1.2 * drive, 1.03 * now));
        double Stroke(FeederState machine, double hertz)
        {
            var undamped = hertz / Math.Sqrt(1 - (machine.DampingRatio * machine.DampingRatio));
            var stiffness = TwoMass.StiffnessFor(undamped, machine.TrayKilograms + input.TrayChange, machine.BodyKilograms);
            return 1e3 * Math.Exp(model.LogStroke(machine, stiffness, input.TrayChange));
        }

        List<(double X, double Y)> curve = [.. Steps(from, to, Points).Select(hertz => (hertz, Stroke(state, hertz)))];
        var top = Math.Min(2.2 * band.Limit.Millimetres, 1.1 * Math.Max(1.2 * band.Limit.Millimetres, curve.Max(point => point.Y)));
        List<(double X, double Low, double High)> ribbon = input.Posterior is null ? [] : [.. Steps(from, to, RibbonPoints).Select(hertz => input.Range(machine => Stroke(machine, hertz)) is { } range ? (hertz, range.Low, range.High) : default)];
        List<SheetMark> marks =
        [
            new(double.NaN, band.Limit.Millimetres, "over-stroke limit", "limit"),
            new(drive, double.NaN, "drive", "cycle"),
            new(now, Math.Min(1e3 * input.Stroke, top), input.Posterior is null ? "as the file describes it" : "now", "sample"),
        ];
        foreach (var (number, trial) in input.Trials.Index())
        {
            if (trial.FullVoltageStroke(input.Feeder) is { } stroke)
            {
                var hertz = trial.NaturalHz ?? FeederModel.FreeHz(state, model.Stiffness(state, trial.Rear, 0), trial.TrayChangeKilograms);
                marks.Add(new(hertz, 1e3 * stroke, string.Create(CultureInfo.InvariantCulture, $"trial {number + 1}")));
            }
        }

        var peak = curve.MaxBy(point => point.Y);
        var ratio = now / drive;
        return new()
        {
            Name = "curve",
            Title = "Tuning curve",
            Feeder = input.Feeder.Name,
            From = input.From,
            Facts =
            [
                SheetFact.Length("stroke with the present stack", "stroke_pp_mm", input.Stroke),
                SheetFact.Number("natural frequency (free decay)", "natural_frequency_hz", now, 2, "Hz"),
                SheetFact.Number("drive", "drive_hz", drive, 2, "Hz"),
                SheetFact.Number("natural over drive frequency", "tuning_ratio", ratio, 4, ""),
                SheetFact.Number("damping ratio", "damping_ratio", state.DampingRatio, 4, ""),
                SheetFact.Length("top of the curve", "peak_pp_mm", peak.Y / 1e3),
                SheetFact.Number("top of the curve at", "peak_hz", peak.X, 1, "Hz"),
                SheetFact.Length("band from", "band_low_mm", band.Low.Metres),
                SheetFact.Length("band to", "band_high_mm", band.High.Metres),
                SheetFact.Length("over-stroke limit", "limit_mm", band.Limit.Metres),
            ],
            Plot = new()
            {
                Says = "Stroke at full voltage, empty tray, over the natural frequency that the rear stack sets. Hatched: the band."
                    + (ribbon.Count > 0 ? " Ribbon with dashed edges: where 95 of 100 machines lie that agree with the trials." : ""),
                XWords = "natural frequency, Hz",
                YUnit = "mm",
                Keys = ("natural_frequency_hz", "stroke_pp_mm"),
                X = (from, to),
                Y = (0, top),
                Inches = true,
                Band = (band.Low.Millimetres, band.High.Millimetres),
                Ribbon = ribbon,
                Lines = [new("curve", "ink", curve)],
                Marks = marks,
            },
            Notes =
            [
                ratio > 1 ? "the feeder stands right of the drive, on the normal side: more rear stiffness lowers the stroke, load raises it" : "the feeder stands left of the drive, on the reverse side: more rear stiffness raises the stroke, load lowers it; bring it back first",
                "the top of the curve is set by damping and is never a place to run: leaves break and the armature strikes there; the model leaves out contact, bent iron and a force that goes with the gap, so that strokes far above the limit are not to be believed",
                .. input.Trials.Any(trial => trial.DampingRatio is not null) ? Array.Empty<string>() : ["no trial gives a damping ratio: it and the top of the curve are near the usual figure (common practice, no source), not measured"],
            ],
        };
    }

    /// <summary>Gives even steps from one value to another.</summary>
    internal static IEnumerable<double> Steps(double from, double to, int count) => Enumerable.Range(0, count).Select(i => from + ((to - from) * i / (count - 1)));
}
