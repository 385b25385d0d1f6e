using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Pipeline;

/// <summary>Measures the captures that trials name, by the same chain as <c>replay</c>.</summary>
internal static class TrialCaptures
{
    /// <summary>Readings of one sensor differ from each other by at least this share, whatever their noise (standard deviation; common practice, no source).</summary>
    internal const double LeastSpread = 0.003;

    /// <summary>Gives a trial with what its capture tells; null and the reason where the capture holds no stroke. What the trial says itself goes before what its capture says.</summary>
    /// <exception cref="Samples.Sources.CaptureException">The capture cannot be read.</exception>
    public static TuningTrial? Measure(TrialEntry entry, FeederDescription feeder, out string? reason)
    {
        reason = null;
        if (entry.Capture is not { } file)
        {
            return entry.Trial;
        }

        using var source = CaptureFile.Open(file, SensorChannels.Wanted(feeder));
        var result = Replayer.Run(file, source, feeder, new AlarmDelays());
        var features = result.Features;
        if (features.Stroke is not { } stroke)
        {
            reason = $"{file}: no stroke could be measured{(result.Report.Stroke.Reason is { } why ? $" ({why})" : "")}; capture 20 s of the empty feeder running steadily at full voltage";
            return null;
        }

        // The sensitivity's error is the same in all readings; between them only scatter counts.
        return entry.Trial with
        {
            StrokeMetres = stroke,
            StrokeSpread = Math.Max(LeastSpread, features.StrokeScatter ?? 0),
            VoltageRatio = entry.Trial.VoltageRead ? entry.Trial.VoltageRatio : features.SupplyShare ?? 1,
            VoltageRead = entry.Trial.VoltageRead || features.SupplyShare is not null,
            NaturalHz = entry.Trial.NaturalHz ?? features.NaturalHz,
            NaturalSpreadHz = entry.Trial.NaturalHz is null ? features.NaturalUncertaintyHz / 2 : entry.Trial.NaturalSpreadHz,
            DampingRatio = entry.Trial.DampingRatio ?? features.DampingRatio,
        };
    }
}
