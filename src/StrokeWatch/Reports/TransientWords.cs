using System.Globalization;
using StrokeWatch.Measurement.CoastDown;

namespace StrokeWatch.Reports;

/// <summary>What stops and starts told, in words.</summary>
internal static class TransientWords
{
    /// <summary>Gives a decay in one line.</summary>
    public static string Of(in DecayReading decay) => string.Create(
        CultureInfo.InvariantCulture,
        $"natural frequency {decay.NaturalFrequencyHz:0.00} ± {Up(decay.FrequencyUncertaintyHz, 2):0.00} Hz, damping ratio {decay.DampingRatio:0.0000} ± {Up(decay.DampingUncertainty, 4):0.0000}; {decay.TuningRatio:0.000} of the drive: {Side(decay.Side)}");

    /// <summary>Gives a start in one line.</summary>
    public static string Of(in StartReading start) => start.Decay is { } decay ? Of(decay) : $"natural frequency not told: {start.Reason}";

    /// <summary>Gives a side of the tuning curve and what it means.</summary>
    public static string Side(TuningSide side) => side switch
    {
        TuningSide.Normal => "normal side, more rear stiffness lowers the stroke",
        TuningSide.Reverse => "reverse side, more rear stiffness raises the stroke",
        _ => "at the top of the tuning curve, the side cannot be told",
    };

    /// <summary>Rounds an uncertainty up, so that it never says less than was worked out.</summary>
    private static double Up(double value, int digits) => Math.Ceiling(value * Math.Pow(10, digits) - 1e-6) / Math.Pow(10, digits);
}
