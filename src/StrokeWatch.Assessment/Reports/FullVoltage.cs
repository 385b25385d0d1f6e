using System.Globalization;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Brings a stroke to full voltage: the pull goes with the square of the flux, the flux with the voltage, and the stroke, where nothing strikes, with the pull.</summary>
/// <remarks>Sources: <c>Machine/Magnet/Supply.cs</c>; that tuning is done at full voltage and with an empty tray is common practice.</remarks>
internal static class FullVoltage
{
    /// <summary>Name of what the voltage's own uncertainty contributes.</summary>
    public const string Voltage = "supply-voltage";

    /// <summary>Name of what the law's uncertainty contributes.</summary>
    public const string Law = "law-of-the-pull";

    /// <summary>Between these shares of full voltage the law is trusted; beyond, iron, gap and controller were not looked at.</summary>
    private const double LeastShare = 0.8, MostShare = 1.1;

    /// <summary>A controller that fires later than this is not at its full setting, whatever the voltage.</summary>
    private const double LatestFiring = 15;

    /// <summary>Half-width of a voltage's error where none is stated: a hand-held true-rms meter or a transducer (common practice, no source).</summary>
    private const double UsualError = 0.02;

    /// <summary>Half-width of the power's error: on the machine model, whose gap moves with the stroke, it is 2.1 instead of 2; iron near saturation has less than 2.</summary>
    private const double PowerError = 0.2;

    /// <summary>The same where the magnet has a flux of its own: on the machine model the moving gap shifts that flux, and the power is 1.4 instead of 1.</summary>
    private const double BiasedPowerError = 0.5;

    /// <summary>Completes a summary with the stroke at full voltage.</summary>
    /// <param name="supply">What is known of the supply.</param>
    /// <param name="feeder">The feeder.</param>
    /// <param name="stroke">The stroke as measured.</param>
    /// <param name="strikes">Whether the armature strikes.</param>
    /// <param name="steady">The windows in which the feeder ran steadily.</param>
    /// <param name="gathered">What the channel showed.</param>
    /// <param name="contributions">What of the stroke's uncertainty does not shrink with averaging.</param>
    public static SupplySummary Complete(
        SupplySummary supply, FeederDescription feeder, StrokeSummary stroke, bool strikes, IReadOnlyList<WindowReading> steady, SupplyBuilder gathered,
        StrokeContributions contributions)
    {
        if (Impossible(supply, feeder, stroke.Stroke, strikes) is { } why)
        {
            return supply with { Reason = supply.Reason is null || supply.Volts is null ? supply.Reason ?? why : $"{supply.Reason}; {why}" };
        }

        var (share, biased) = (supply.ShareOfFull!.Value, feeder.Supply!.Biased);
        var factor = Machine.Magnet.Supply.NormaliseStroke(1, share, biased);
        var strokes = supply.Captured ? gathered.AtFull(feeder.Supply.FullVolts!.Value, biased) : [.. steady.Select(window => window.StrokeMetres!.Value * factor)];
        var full = WindowStatistics.Median(strokes)!.Value;
        var noise = (WindowStatistics.Median(steady.Select(window => window.NoiseMetres ?? double.NaN)) ?? 0) * factor;
        var budget = new UncertaintyBudget(
        [
            .. StrokeBudget.Of(full, contributions, noise, WindowStatistics.Scatter(strokes), strokes.Count).Components,
            OfVoltage(full, feeder.Supply),
            OfLaw(full, share, biased),
        ]);
        var uncertainty = StrokeBudget.CoverageFactor * budget.Combined;
        var verdict = new BandJudge(feeder.Band).Place(full);
        return supply with
        {
            FullStroke = full,
            Budget = budget,
            FullUncertainty = uncertainty,
            FullVerdict = verdict,
            Words = Words(stroke, verdict, full, uncertainty, share, feeder.Band),
        };
    }

    private static UncertaintyComponent OfVoltage(double full, SupplyDescription supply)
    {
        var relative = supply.Uncertainty is { } expanded ? Distributions.Normal(expanded, StrokeBudget.CoverageFactor) : Distributions.Rectangular(UsualError);
        var basis = supply.Uncertainty is { } stated
            ? string.Create(CultureInfo.InvariantCulture, $"{100 * stated:0.###} % (k = 2) by the feeder file")
            : "meter or transducer assumed within 2 %, rectangular (common practice, no source); state it with uncertainty_percent in [supply]";
        return new(Voltage, relative, full * Machine.Magnet.Supply.StrokeExponent(supply.Biased), basis: basis);
    }

    private static UncertaintyComponent OfLaw(double full, double share, bool biased)
    {
        var error = biased ? BiasedPowerError : PowerError;
        return new(Law, Distributions.Rectangular(error), full * Math.Abs(Math.Log(share)), basis: string.Create(
            CultureInfo.InvariantCulture, $"the stroke goes with power {Machine.Magnet.Supply.StrokeExponent(biased)} of the voltage, within {error:0.0}, rectangular; nothing at full voltage"));
    }

    /// <summary>Says why a stroke in metres cannot be brought to full voltage; null where it can.</summary>
    public static string? Impossible(SupplySummary supply, FeederDescription feeder, double? stroke, bool strikes) =>
        supply.MainsVolts is null ? "the voltage is not known"
        : feeder.Supply?.FullVolts is null ? "full_voltage_v is missing in [supply] of the feeder file, so that the stroke at full voltage is not known"
        : stroke is null ? "there is no stroke to bring to full voltage"
        : strikes ? "the armature strikes, and then the stroke no longer goes with the pull"
        : supply.ShareOfFull is < LeastShare or > MostShare ? string.Create(
            CultureInfo.InvariantCulture, $"the voltage is {100 * supply.ShareOfFull:0.#} % of full; what the stroke would be at full voltage is told between {100 * LeastShare:0} and {100 * MostShare:0} %")
        : supply.FiringDegrees > LatestFiring ? string.Create(
            CultureInfo.InvariantCulture, $"the controller cuts the voltage (it fires at {supply.FiringDegrees:0}°), and the pull does not go with the square of what is left; set it to full")
        : supply is { Captured: true, RmsAlone: false, ConductionShare: null } ? "the voltage is no sine, and the pull does not go with its root mean square"
        : null;

    private static string? Words(StrokeSummary stroke, Verdict atFull, double full, double uncertainty, double share, StrokeBand band)
    {
        // A verdict with a reason of its own is not that of the mean stroke which is brought to full voltage.
        var verdict = stroke.Verdict;
        if (stroke.Reason is not null || verdict is not (Verdict.InBand or Verdict.Low or Verdict.High or Verdict.OverStroke) || (verdict == Verdict.InBand) == (atFull == Verdict.InBand))
        {
            return null;
        }

        var percent = string.Create(CultureInfo.InvariantCulture, $"{100 * share:0.0} % of full voltage");
        var would = $"at full voltage the stroke would be {BandJudge.Words(full)} ± {Samples.Quantities.Length.FromMetres(uncertainty).RoundedUp()}";
        var sure = full - uncertainty >= band.Low.Metres && full + uncertainty <= band.High.Metres ? "" : ", as far as its uncertainty tells";
        return verdict != Verdict.InBand
            ? $"the supply has {percent}, and {would}, in the band{sure}: the voltage puts it out, not the machine"
            : $"the supply has {percent}, and {would}, {(atFull == Verdict.Low ? "below" : "above")} the band: only the voltage keeps it in";
    }
}
