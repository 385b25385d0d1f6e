using System.Globalization;
using StrokeWatch.Assessment;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Session;

/// <summary>Readings in words and numbers, in mm and inches, the same under every culture.</summary>
internal static class SessionNumbers
{
    /// <summary>Gives a trial in lines: stroke, band, verdict, natural frequency, strike.</summary>
    public static IReadOnlyList<string> Reading(BookTrial trial, FeederDescription feeder)
    {
        var lines = new List<string>();
        void Say(FormattableString text) => lines.Add(text.ToString(CultureInfo.InvariantCulture));
        var band = feeder.Band;
        if (StackText.Read(trial.Rear, out _) is { } rear)
        {
            Say($"rear stack {Stacks.Words(rear)}{(trial.TrayChangeKilograms is { } change && change != 0 ? string.Create(CultureInfo.InvariantCulture, $"; tray {Math.Abs(change):0.##} kg {(change > 0 ? "heavier" : "lighter")} than its file says") : "")}");
        }

        if (trial.StrokeMetres is { } stroke)
        {
            var spread = trial.UncertaintyMetres is { } uncertainty ? $" ± {Length.FromMetres(uncertainty).RoundedUp()}, k = 2" : "";
            Say($"stroke     {Length.FromMetres(stroke)}{spread}, peak to peak");
            Say($"band       {band.Low} to {band.High}, limit {band.Limit}");
            Say($"verdict    {Verdict(trial.Verdict)}{Distance(stroke, band)}");
            if (trial.VoltageRatio is { } voltage && Math.Abs(voltage - 1) > 0.01)
            {
                Say($"voltage    {100 * voltage:0.#} % of full voltage: the band holds at full voltage");
            }

            if (EdgeWithin(stroke, trial.UncertaintyMetres, band))
            {
                Say($"note       an edge of the band lies within the uncertainty: the verdict holds for the value that was read");
            }
        }
        else
        {
            Say($"stroke     not measured: {trial.Reason ?? "the feeder did not run steadily"}");
        }

        Say($"{Natural(trial, feeder)}");
        Say($"strike     {(trial.Strike switch { true => "HEARD", false => "none heard", _ => "could not be judged" })}");
        return lines;
    }

    /// <summary>Gives a verdict's name in words.</summary>
    public static string Verdict(string name) => name switch
    {
        "in-band" => "in band",
        "low" => "LOW",
        "high" => "HIGH",
        "over-stroke" => "OVER-STROKE",
        "stopped" => "stopped",
        _ => "not measured",
    };

    /// <summary>Says whether a trial's stroke is in the band.</summary>
    public static bool InBand(BookTrial trial) => trial.Verdict == Names.Of(Assessment.Verdicts.Verdict.InBand);

    /// <summary>Gives a stroke with its uncertainty in a few words.</summary>
    public static string Stroke(BookTrial trial) => trial.StrokeMetres is { } stroke
        ? $"{Length.FromMetres(stroke)}{(trial.UncertaintyMetres is { } uncertainty ? $" ± {Length.FromMetres(uncertainty).RoundedUp()}" : "")}"
        : "no stroke";

    private static string Natural(BookTrial trial, FeederDescription feeder)
    {
        if (trial.NaturalHz is not { } hertz)
        {
            return "natural    frequency not read: no usable stop or start was in the measurement";
        }

        var ratio = hertz / feeder.Drive.NominalHz;
        var side = ratio > 1 ? "normal side" : "reverse side";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"natural    frequency {hertz:0.00}{(trial.NaturalUncertaintyHz is { } uncertainty ? string.Create(CultureInfo.InvariantCulture, $" ± {Math.Ceiling(uncertainty * 100 - 1e-6) / 100:0.00}") : "")} Hz, {ratio:0.000} times the drive's{(Math.Abs(ratio - 1) * hertz > (trial.NaturalUncertaintyHz ?? 0) ? $": {side}" : "")}");
    }

    private static string Distance(double stroke, StrokeBand band)
    {
        var (edge, words) = stroke < band.Low.Metres ? (band.Low, "below the band")
            : stroke > band.Limit.Metres ? (band.Limit, "above the limit")
            : stroke > band.High.Metres ? (band.High, "above the band") : (band.Low, "");
        return words.Length == 0 ? "" : $", {Length.FromMetres(Math.Abs(stroke - edge.Metres))} {words}";
    }

    private static bool EdgeWithin(double stroke, double? uncertainty, StrokeBand band) =>
        uncertainty is { } spread && new[] { band.Low, band.High, band.Limit }.Any(edge => Math.Abs(stroke - edge.Metres) < spread);
}
