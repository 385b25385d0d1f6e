using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports;

/// <summary>Writes the supply and the stroke at full voltage for a person; nothing where nothing is known of either.</summary>
internal static class SupplyText
{
    /// <summary>Writes the lines.</summary>
    public static void Write(TextWriter writer, AssessmentReport report)
    {
        if (report.Supply is not { } supply)
        {
            return;
        }

        writer.WriteLine($"  supply     {Words(supply)}");
        if (supply is { FullStroke: { } full, FullUncertainty: { } uncertainty })
        {
            writer.WriteLine($"  at full    {Length.FromMetres(full)} ± {Length.FromMetres(uncertainty).RoundedUp()} peak to peak at full voltage, k = 2, by the {(report.Feeder.Supply is { Biased: true } ? "voltage (the magnet has a flux of its own)" : "square of the voltage")}");
        }

        if (supply.Reason is { } reason)
        {
            writer.WriteLine($"             {reason}");
        }
    }

    /// <summary>Gives voltage, phase and firing angle in words.</summary>
    public static string Words(SupplySummary supply)
    {
        var parts = new List<string>();
        void Add(FormattableString text) => parts.Add(text.ToString(CultureInfo.InvariantCulture));
        if (supply.Volts is { } volts)
        {
            Add($"{volts:0.0} V true rms, {(supply.Captured ? "captured" : "entered")}");
        }
        else
        {
            parts.Add("voltage not known");
        }

        if (supply.ShareOfFull is { } share)
        {
            Add($"{(supply.FiringDegrees is null ? "" : "the mains ")}{100 * share:0.0} % of full voltage");
        }

        if (supply is { PhaseDegrees: { } phase, PhaseUncertaintyDegrees: { } lag })
        {
            Add($"the tray moves {Math.Abs(phase):0.0}° ± {Math.Ceiling(10 * lag) / 10:0.0}° {(phase < 0 ? "behind" : "ahead of")} it");
        }

        if (supply is { FiringDegrees: { } firing, FiringUncertaintyDegrees: { } spread, ConductionShare: { } conducts })
        {
            Add($"the controller fires at {firing:0}° ± {Math.Ceiling(spread):0}° and lets {100 * conducts:0} % of the cycle through");
        }

        return string.Join(", ", parts);
    }
}
