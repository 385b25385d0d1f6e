using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Baselines;

/// <summary>What of a capture's features belongs in a baseline, and with what noise of its own.</summary>
public static class BaselineReadings
{
    /// <summary>Features of the recording and not of the machine, and angles without a mean: those that go round at 180°.</summary>
    private static readonly HashSet<string> LeftOut =
    [
        "drive_hz", "clipped_share", "missing_share", "silent_share", "sensor_clock_error_ppm", "second_order_phase_deg", "third_order_phase_deg", "front_ahead_of_rear_deg", "supply_phase_deg",
    ];

    /// <summary>Gets the features that a baseline may hold.</summary>
    public static IReadOnlyList<Feature> Followed { get; } = [.. FeatureTable.All.Where(feature => !LeftOut.Contains(feature.Name))];

    /// <summary>Gives the readings of a capture; what was not measured is left out.</summary>
    public static IReadOnlyList<FeatureReading> Of(CaptureFeatures features) =>
    [
        .. Followed.Select(feature => (feature.Name, Value: feature.Of(features))).Where(feature => feature.Value is not null)
            .Select(feature => new FeatureReading(feature.Name, feature.Value!.Value, Own(feature.Name, features))),
    ];

    /// <summary>Gives the standard uncertainty by noise alone; a stroke's is nearly all sensitivity, which shifts all captures alike.</summary>
    private static double Own(string name, CaptureFeatures features) => name switch
    {
        "natural_frequency_hz" => features.NaturalUncertaintyHz / 2 ?? 0,
        "damping_ratio" => features.DampingUncertainty / 2 ?? 0,
        _ => 0,
    };
}
