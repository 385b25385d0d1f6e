using System.Globalization;
using StrokeWatch.Measurement.Features;

namespace StrokeWatch.Assessment.Reports;

/// <summary>The table of features; a new feature is a line here.</summary>
public static class FeatureTable
{
    /// <summary>Gets all features.</summary>
    public static IReadOnlyList<Feature> All { get; } =
    [
        new("stroke_mm", 6, of => of.Stroke * 1e3),
        new("stroke_scatter", 6, of => of.StrokeScatter),
        new("drive_hz", 6, of => of.DriveHz),
        new("natural_frequency_hz", 5, of => of.NaturalHz),
        new("start_less_stop_hz", 5, of => of.StartLessStopHz),
        new("damping_ratio", 6, of => of.DampingRatio),
        new("tuning_ratio", 6, of => of.TuningRatio),
        .. Enumerable.Range(2, OrderLevels.Orders - 1).Select(Order),
        new("even_orders_ratio", 7, of => of.Levels?.Even),
        new("odd_orders_ratio", 7, of => of.Levels?.Odd),
        new("high_orders_ratio", 7, of => of.Levels?.High),
        new("second_order_phase_deg", 3, of => of.Levels?.SecondPhaseDegrees),
        new("third_order_phase_deg", 3, of => of.Levels?.ThirdPhaseDegrees),
        new("across_line_ratio", 7, of => of.Levels?.Across),
        new("half_order_ratio", 7, of => of.Levels?.Half),
        new("third_of_drive_ratio", 7, of => of.Levels?.Third),
        new("slow_noise_m_s2", 6, of => of.Levels?.Slow),
        new("noise_m_s2", 6, of => of.Levels?.Noise),
        new("noise_crest", 4, of => of.Levels?.NoiseCrest),
        new("line_angle_deg", 4, of => of.LineAngleDegrees),
        new("line_askew_deg", 4, of => of.AskewDegrees),
        new("ellipse_ratio", 6, of => of.EllipseRatio),
        new("tilt_deg", 4, of => of.TiltDegrees),
        new("mean_acceleration_m_s2", 5, of => of.MeanAcceleration),
        new("strike_score", 4, of => of.StrikeScore),
        new("strike_score_median", 4, of => of.StrikeScoreMedian),
        new("clipped_share", 7, of => of.ClippedShare),
        new("missing_share", 7, of => of.MissingShare),
        new("silent_share", 5, of => of.SilentShare),
        new("sensor_clock_error_ppm", 1, of => of.ClockError * 1e6),
        new("front_less_rear_ratio", 6, of => of.FrontRear),
        new("left_less_right_ratio", 6, of => of.LeftRight),
        new("front_ahead_of_rear_deg", 3, of => of.FrontRearPhaseDegrees),
        new("tray_to_body_mm", 6, of => of.TrayToBody * 1e3),
        new("supply_share_of_full", 6, of => of.SupplyShare),
        new("supply_phase_deg", 3, of => of.SupplyPhaseDegrees),
    ];

    private static Feature Order(int order) =>
        new(string.Create(CultureInfo.InvariantCulture, $"order_{order}_ratio"), 7, of => of.Levels?.Orders[order - 1]);
}
