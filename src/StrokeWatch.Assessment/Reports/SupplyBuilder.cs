using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Supply;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Gathers what the supply's channel showed window by window, and sums it up.</summary>
internal sealed class SupplyBuilder
{
    private readonly List<Kept> windows = [];
    private string? reason;

    /// <summary>Takes a window; one without a channel leaves nothing.</summary>
    public void Add(in AssessedWindow window)
    {
        if (window.Reading.Supply is not { } supply)
        {
            return;
        }

        var steady = window is { Verdict: not (Verdict.Stopped or Verdict.Unmeasurable), Reading.StrokeMetres: not null };
        windows.Add(new(supply, steady ? window.Reading.StrokeMetres!.Value : double.NaN));
        reason = windows.Count == 1 || steady ? supply.Reason : reason;
    }

    /// <summary>Sums up; null where there is neither a channel nor a word of the supply in the feeder file.</summary>
    /// <param name="feeder">The feeder.</param>
    public SupplySummary? Build(FeederDescription feeder)
    {
        if (windows.Count == 0)
        {
            return feeder.Supply is not { } supply ? null : new()
            {
                Volts = supply.EnteredVolts,
                MainsVolts = supply.EnteredVolts,
                ShareOfFull = supply.EnteredVolts / supply.FullVolts,
                Reason = supply.EnteredVolts is null
                    ? "no voltage was captured or entered; capture it as supply_v, or read it off a true-rms meter and enter it with voltage_v in [supply] or --supply-voltage-v"
                    : "the voltage was entered, not captured, so that phase and firing angle are not known",
            };
        }

        var steady = windows.FindAll(window => !double.IsNaN(window.Stroke));
        var told = steady.Count > 0 ? steady : windows;
        var (volts, mains) = (Median(told, window => window.Volts), Median(told, window => window.Mains));
        return new()
        {
            Volts = volts,
            Captured = true,
            RmsAlone = told.Exists(window => window.RmsAlone),
            MainsVolts = mains,
            ShareOfFull = mains / feeder.Supply?.FullVolts,
            PhaseDegrees = Circular(told),
            PhaseUncertaintyDegrees = Median(told, window => window.PhaseUncertainty),
            ConductionShare = Median(told, window => window.Share),
            FiringDegrees = Median(told, window => window.Firing),
            FiringUncertaintyDegrees = Median(told, window => window.FiringUncertainty),
            Reason = volts is null || steady.Count > 0 ? reason : "the feeder never ran steadily, so that no phase against the supply is known",
        };
    }

    /// <summary>Gives each steady window's stroke in metres brought to full voltage by its own voltage.</summary>
    /// <param name="fullVolts">Full voltage in volts.</param>
    /// <param name="biased">Whether the magnet has a flux of its own.</param>
    public IReadOnlyList<double> AtFull(double fullVolts, bool biased) =>
        [.. windows.Where(window => !double.IsNaN(window.Stroke) && window.Mains > 0).Select(window => Machine.Magnet.Supply.NormaliseStroke(window.Stroke, window.Mains / fullVolts, biased))];

    private static double? Median(List<Kept> windows, Func<Kept, double> value) => WindowStatistics.Median(windows.Select(value));

    /// <summary>Gives the median of the phases, each taken by the shorter way from the first.</summary>
    private static double? Circular(List<Kept> windows)
    {
        var first = windows.Find(window => !double.IsNaN(window.Phase)).Phase;
        return WindowStatistics.Median(windows.Where(window => !double.IsNaN(window.Phase)).Select(window => Math.IEEERemainder(window.Phase - first, 360))) is { } apart
            ? Math.IEEERemainder(first + apart, 360) : null;
    }

    /// <summary>A window in few bytes; NaN stands for what was not measured.</summary>
    private readonly record struct Kept(double Volts, double Mains, double Stroke, float Phase, float PhaseUncertainty, float Share, float Firing, float FiringUncertainty, bool RmsAlone)
    {
        public Kept(in SupplyReading supply, double stroke)
            : this(supply.RmsVolts ?? double.NaN, supply.MainsVolts ?? double.NaN, stroke, If(supply.PhaseDegrees), If(supply.PhaseUncertaintyDegrees), If(supply.ConductionShare), If(supply.FiringDegrees), If(supply.FiringUncertaintyDegrees), supply.RmsAlone)
        {
        }

        private static float If(double? value) => (float)(value ?? double.NaN);
    }
}
