using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Reports;

/// <summary>An assessed window packed to half its size, for a day has 170,000 of them; NaN stands for what was not measured and never leaves this type.</summary>
internal readonly struct KeptWindow
{
    private readonly double start;
    private readonly double length;
    private readonly double frequency;
    private readonly double clockError;
    private readonly double stroke;
    private readonly double fundamental;
    private readonly double atLeast;
    private readonly double uncertainty;
    private readonly double noise;
    private readonly double lineAngle;
    private readonly double ellipse;
    private readonly double score;
    private readonly double largest;
    private readonly string? reason;
    private readonly int clipped;
    private readonly byte quality;
    private readonly byte motion;
    private readonly byte verdict;
    private readonly sbyte largestPlace;
    private readonly sbyte failingPlace;
    private readonly bool strike;
    private readonly byte strikeEvery;
    private readonly bool timed;
    private readonly bool possible;
    private readonly bool carried;

    /// <summary>Packs a window.</summary>
    public KeptWindow(in AssessedWindow window)
    {
        var reading = window.Reading;
        (start, length, reason, clipped) = (reading.StartSeconds, reading.LengthSeconds, reading.Reason, reading.ClippedSamples);
        (quality, motion, verdict) = ((byte)reading.Quality, (byte)reading.Motion, (byte)window.Verdict);
        (strike, strikeEvery, timed) = (reading.Strike, (byte)(reading.StrikeEvery ?? 0), reading.Timed);
        (possible, carried) = (reading.StrikePossible, reading.StrikeCarried);
        frequency = reading.FrequencyHz ?? double.NaN;
        clockError = reading.ClockError ?? double.NaN;
        stroke = reading.StrokeMetres ?? double.NaN;
        fundamental = reading.FundamentalMetres ?? double.NaN;
        atLeast = reading.AtLeastMetres ?? double.NaN;
        uncertainty = reading.UncertaintyMetres ?? double.NaN;
        noise = reading.NoiseMetres ?? double.NaN;
        lineAngle = reading.LineAngleDegrees ?? double.NaN;
        ellipse = reading.EllipseRatio ?? double.NaN;
        score = reading.StrikeScore ?? double.NaN;
        largest = reading.LargestMetres ?? double.NaN;
        largestPlace = (sbyte)(reading.LargestPlace is { } most ? (int)most : -1);
        failingPlace = (sbyte)(reading.FailingPlace is { } failing ? (int)failing : -1);
    }

    /// <summary>Gets the verdict.</summary>
    public Verdict Verdict => (Verdict)verdict;

    /// <summary>Gets the stroke in metres.</summary>
    public double? StrokeMetres => Known(stroke);

    /// <summary>Gets the fundamental's stroke in metres.</summary>
    public double? FundamentalMetres => Known(fundamental);

    /// <summary>Gets the least that the tray moves, in metres.</summary>
    public double? AtLeastMetres => Known(atLeast);

    /// <summary>Gets the largest stroke of several sensors, in metres.</summary>
    public double? LargestMetres => Known(largest);

    /// <summary>Gets the most that any place is known to move, as <see cref="WindowReading.PeakMetres"/> does.</summary>
    public double? PeakMetres => (LargestMetres ?? StrokeMetres) is { } most ? Math.Max(most, AtLeastMetres ?? 0) : AtLeastMetres;

    /// <summary>Gets the noise in metres.</summary>
    public double? NoiseMetres => Known(noise);

    /// <summary>Gets the line's angle in degrees.</summary>
    public double? LineAngleDegrees => Known(lineAngle);

    /// <summary>Gets the ellipse's ratio.</summary>
    public double? EllipseRatio => Known(ellipse);

    /// <summary>Gets the drive's frequency in Hz.</summary>
    public double? FrequencyHz => Known(frequency);

    /// <summary>Gets the samples at the rail.</summary>
    public int ClippedSamples => clipped;

    /// <summary>Unpacks the window.</summary>
    public AssessedWindow Window => new(
        new()
        {
            StartSeconds = start,
            LengthSeconds = length,
            Quality = (WindowQuality)quality,
            Motion = (MotionState)motion,
            Reason = reason,
            FrequencyHz = Known(frequency),
            ClockError = Known(clockError),
            StrokeMetres = Known(stroke),
            FundamentalMetres = Known(fundamental),
            AtLeastMetres = Known(atLeast),
            UncertaintyMetres = Known(uncertainty),
            NoiseMetres = Known(noise),
            LineAngleDegrees = Known(lineAngle),
            EllipseRatio = Known(ellipse),
            Strike = strike,
            StrikeScore = Known(score),
            StrikePossible = possible,
            StrikeCarried = carried,
            StrikeEvery = strikeEvery == 0 ? null : strikeEvery,
            Timed = timed,
            ClippedSamples = clipped,
            LargestMetres = Known(largest),
            LargestPlace = largestPlace < 0 ? null : (SensorPlace)largestPlace,
            FailingPlace = failingPlace < 0 ? null : (SensorPlace)failingPlace,
        },
        (Verdict)verdict);

    private static double? Known(double value) => double.IsNaN(value) ? null : value;
}

/// <summary>Gives one value of a kept window; null where it was not measured.</summary>
internal delegate double? KeptValue(in KeptWindow window);
