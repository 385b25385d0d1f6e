using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Magnet;

namespace StrokeWatch.Reports.Sheets;

/// <summary>The air gap: what stroke and pull leave of it, at which stroke armature and core meet, and which gap would strike at the over-stroke limit.</summary>
internal static class GapSheet
{
    /// <summary>Mean pull over the amplitude at the drive's frequency: 1 for full-wave flux squared, 3/4 for the half-wave flux 1 − cos (check: B² series 1.5 − 2 cos + 0.5 cos).</summary>
    private const double FullWaveMean = 1, HalfWaveMean = 0.75;

    /// <summary>Makes the sheet.</summary>
    public static Sheet Make(SheetInput input)
    {
        var (state, band, gap) = (input.State, input.Feeder.Band, input.Feeder.RestGapMetres!.Value);
        var (tray, body, stiffness) = (state.TrayKilograms + input.TrayChange, state.BodyKilograms, input.Stiffness);
        var mean = input.Feeder.Drive.StrokesPerCycle == 2 ? FullWaveMean : HalfWaveMean;
        var force = mean * Math.Exp(state.LogForce);

        // What a stroke and the pull that makes it take of the gap; both go with the pull.
        double Closing(double stroke) => gap - AirGap.Clearance(gap, TwoMass.RelativeAmplitude(0.5 * stroke, tray, body), force * stroke / input.Stroke, stiffness);
        double Clearance(double stroke) => gap - Closing(stroke);
        var strikes = gap / Closing(1e-3) * 1e-3;
        var limit = band.Limit.Metres;
        var most = Math.Max(1.25 * limit, Math.Min(1.1 * strikes, 3 * limit));
        List<(double X, double Y)> line = [.. CurveSheet.Steps(0, most, 60).Select(stroke => (1e3 * stroke, 1e3 * Clearance(stroke)))];
        return new()
        {
            Name = "gap",
            Title = "Air-gap clearance",
            Feeder = input.Feeder.Name,
            From = input.From,
            Facts =
            [
                SheetFact.Length("gap at rest", "rest_gap_mm", gap),
                SheetFact.Length("stroke with the present stack", "stroke_pp_mm", input.Stroke),
                SheetFact.Length("clearance at that stroke", "clearance_mm", Clearance(input.Stroke)),
                SheetFact.Length("clearance at the top of the band", "clearance_band_high_mm", Clearance(band.High.Metres)),
                SheetFact.Length("clearance at the over-stroke limit", "clearance_limit_mm", Clearance(limit)),
                SheetFact.Length("would strike from a stroke of", "strike_stroke_mm", strikes),
                SheetFact.Length("gap that would strike at the limit", "strike_gap_at_limit_mm", Closing(limit)),
                SheetFact.Number("mean pull at the present stroke", "mean_pull_n", force, 0, "N"),
                SheetFact.Length("gap that the mean pull takes", "sag_mm", force / stiffness),
            ],
            Plot = new()
            {
                Says = "What is left between armature and core at closest approach, over the stroke. At zero they meet.",
                XWords = "stroke, peak to peak, mm",
                YUnit = "mm",
                Keys = ("stroke_pp_mm", "clearance_mm"),
                X = (0, 1e3 * most),
                Y = (Math.Min(-0.1e3 * gap, 1.05 * line[^1].Y), 1.05e3 * gap),
                Lines = [new("clearance", "ink", line)],
                Marks =
                [
                    new(double.NaN, 0, "strike", "limit"),
                    new(band.Low.Millimetres, double.NaN, "", "edge"),
                    new(band.High.Millimetres, double.NaN, "band", "edge"),
                    new(band.Limit.Millimetres, double.NaN, "limit", "limit"),
                    new(1e3 * input.Stroke, 1e3 * Clearance(input.Stroke), "now", "sample"),
                ],
            },
            Notes =
            [
                Clearance(limit) > 0 ? "at the over-stroke limit armature and core do not meet yet" : "armature and core meet before the over-stroke limit is reached: the gap is too small for this limit, or the file's gap is wrong",
                "closest approach is the gap at rest less half the motion of tray against body (the body moves too) less what the mean pull bends the springs; load on the tray, a gap set askew and worn clamps take more, and a pull that grows as the gap closes does too: keep a margin",
                .. input.Feeder.Supply?.Biased == true ? ["the magnet has a flux of its own, which pulls at rest too; how strong it is the feeder file does not say, and it is taken as strong as the alternating one: a stronger one takes more of the gap"] : Array.Empty<string>(),
                "the gap is set with a feeler gauge with power isolated and locked out; never close it by hand under power",
            ],
        };
    }
}
