using StrokeWatch.Measurement.Features;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Features by name, as they are kept in a store or a baseline, and back.</summary>
public static class KeptFeatures
{
    private const string NaturalUncertainty = "natural_frequency_uncertainty_hz";
    private const string DampingUncertainty = "damping_uncertainty_ratio";
    private const string Fundamental = "fundamental_m_s2";
    private const string CoastDowns = "coast_downs";

    /// <summary>Gives all that is known, by the names of <see cref="FeatureTable"/> and a few beside; what was not measured is left out.</summary>
    public static IReadOnlyList<(string Name, double Value)> Of(CaptureFeatures features)
    {
        (string Name, double? Value)[] beside =
        [
            (NaturalUncertainty, features.NaturalUncertaintyHz),
            (DampingUncertainty, features.DampingUncertainty),
            (Fundamental, features.Levels?.Fundamental),
            (CoastDowns, features.CoastDowns),
        ];
        return
        [
            .. FeatureTable.All.Select(feature => (feature.Name, Value: feature.Of(features))).Concat(beside)
                .Where(known => known.Value is { } value && double.IsFinite(value)).Select(known => (known.Name, known.Value!.Value)),
        ];
    }

    /// <summary>Reads features back; names that are not known are passed over, so that what a later version kept does no harm.</summary>
    /// <param name="kept">The values by name.</param>
    /// <param name="steadyWindows">Number of windows in which the feeder ran steadily.</param>
    /// <param name="reason">Why they tell nothing; null where they do.</param>
    public static CaptureFeatures Read(IReadOnlyDictionary<string, double> kept, int steadyWindows, string? reason)
    {
        double? Get(string name) => kept.TryGetValue(name, out var value) ? value : null;
        return new()
        {
            Stroke = Get("stroke_mm") / 1e3,
            StrokeScatter = Get("stroke_scatter"),
            DriveHz = Get("drive_hz"),
            NaturalHz = Get("natural_frequency_hz"),
            NaturalUncertaintyHz = Get(NaturalUncertainty),
            StartLessStopHz = Get("start_less_stop_hz"),
            DampingRatio = Get("damping_ratio"),
            DampingUncertainty = Get(DampingUncertainty),
            TuningRatio = Get("tuning_ratio"),
            Levels = Levels(Get),
            LineAngleDegrees = Get("line_angle_deg"),
            AskewDegrees = Get("line_askew_deg"),
            EllipseRatio = Get("ellipse_ratio"),
            TiltDegrees = Get("tilt_deg"),
            MeanAcceleration = Get("mean_acceleration_m_s2"),
            Strike = Get("strike_score_median") >= 1,
            StrikeScore = Get("strike_score"),
            StrikeScoreMedian = Get("strike_score_median"),
            ClippedShare = Get("clipped_share") ?? 0,
            MissingShare = Get("missing_share") ?? 0,
            SilentShare = Get("silent_share") ?? 0,
            ClockError = Get("sensor_clock_error_ppm") / 1e6,
            FrontRear = Get("front_less_rear_ratio"),
            LeftRight = Get("left_less_right_ratio"),
            FrontRearPhaseDegrees = Get("front_ahead_of_rear_deg"),
            TrayToBody = Get("tray_to_body_mm") / 1e3,
            SteadyWindows = steadyWindows,
            CoastDowns = (int)(Get(CoastDowns) ?? 0),
            Reason = reason,
        };
    }

    /// <summary>Reads the levels; null where one of them is not there, but for phases, which have no mean and are in no baseline.</summary>
    private static LevelSummary? Levels(Func<string, double?> get)
    {
        double Or(string name) => get(name) ?? 0;
        List<double?> orders = [.. Enumerable.Range(2, OrderLevels.Orders - 1).Select(order => get(FormattableString.Invariant($"order_{order}_ratio")))];
        string[] others = ["across_line_ratio", "half_order_ratio", "third_of_drive_ratio", "slow_noise_m_s2", "noise_m_s2", "noise_crest"];
        return orders.Contains(null) || others.Any(name => get(name) is null) ? null : new()
        {
            Fundamental = Or(Fundamental),
            Orders = [1, .. orders.OfType<double>()],
            OrderScatter = [],
            SecondPhaseDegrees = Or("second_order_phase_deg"),
            ThirdPhaseDegrees = Or("third_order_phase_deg"),
            Across = Or("across_line_ratio"),
            Half = Or("half_order_ratio"),
            Third = Or("third_of_drive_ratio"),
            Slow = Or("slow_noise_m_s2"),
            Noise = Or("noise_m_s2"),
            NoiseCrest = Or("noise_crest"),
        };
    }
}
