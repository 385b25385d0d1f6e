using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Reports;

/// <summary>What one capture tells of the machine's condition, in numbers that can be followed from capture to capture; null where not measured.</summary>
public sealed record CaptureFeatures
{
    /// <summary>Gets the stroke in metres.</summary>
    public double? Stroke { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of the stroke in metres.</summary>
    public double? StrokeUncertainty { get; init; }

    /// <summary>Gets the standard deviation of the windows' strokes over their mean.</summary>
    public double? StrokeScatter { get; init; }

    /// <summary>Gets the drive frequency in Hz.</summary>
    public double? DriveHz { get; init; }

    /// <summary>Gets the frequency of the free decay in Hz: of the capture's stops and starts, weighed by their uncertainties.</summary>
    public double? NaturalHz { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of that frequency in Hz.</summary>
    public double? NaturalUncertaintyHz { get; init; }

    /// <summary>Gets the frequency that the starts alone show, whose beat swings about the full stroke, less that of the stops alone, whose decay passes all strokes; in Hz.</summary>
    public double? StartLessStopHz { get; init; }

    /// <summary>Gets the damping ratio of the free decay, weighed likewise.</summary>
    public double? DampingRatio { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of the damping ratio.</summary>
    public double? DampingUncertainty { get; init; }

    /// <summary>Gets natural over drive frequency; above 1 on the normal side of the tuning curve.</summary>
    public double? TuningRatio { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of the tuning ratio.</summary>
    public double? TuningUncertainty { get; init; }

    /// <summary>Gets orders and noise; null where no window ran steadily.</summary>
    public LevelSummary? Levels { get; init; }

    /// <summary>Gets the line of action above the x axis in the x-z plane in degrees, as the motion shows it where it does.</summary>
    public double? LineAngleDegrees { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of the line of action in degrees.</summary>
    public double? LineUncertaintyDegrees { get; init; }

    /// <summary>Gets the line of action's angle out of the x-z plane in degrees.</summary>
    public double? AskewDegrees { get; init; }

    /// <summary>Gets the minor over the major axis of the fundamental's ellipse.</summary>
    public double? EllipseRatio { get; init; }

    /// <summary>Gets the angle between the sensor's z axis and the vertical in degrees, 0 to 180.</summary>
    public double? TiltDegrees { get; init; }

    /// <summary>Gets the size of the mean acceleration in m/s²: gravity's own where the sensor passes it.</summary>
    public double? MeanAcceleration { get; init; }

    /// <summary>Gets whether the armature strikes.</summary>
    public bool Strike { get; init; }

    /// <summary>Gets the largest strike score; 1 is the threshold.</summary>
    public double? StrikeScore { get; init; }

    /// <summary>Gets the median strike score.</summary>
    public double? StrikeScoreMedian { get; init; }

    /// <summary>Gets the clipped samples over all.</summary>
    public double ClippedShare { get; init; }

    /// <summary>Gets the samples missing over all that there should be.</summary>
    public double MissingShare { get; init; }

    /// <summary>Gets the windows in which the sensor says one value again and again, or nothing that can be fitted, over all.</summary>
    public double SilentShare { get; init; }

    /// <summary>Gets the error of the sensor's clock, relative; null where the drive is free.</summary>
    public double? ClockError { get; init; }

    /// <summary>Gets each of several sensors; empty where there is one.</summary>
    public IReadOnlyList<SensorSummary> Sensors { get; init; } = [];

    /// <summary>Gets the stroke at the front less that at the rear, over their mean.</summary>
    public double? FrontRear { get; init; }

    /// <summary>Gets the stroke on the left less that on the right, over their mean.</summary>
    public double? LeftRight { get; init; }

    /// <summary>Gets the phase of the front ahead of the rear in degrees.</summary>
    public double? FrontRearPhaseDegrees { get; init; }

    /// <summary>Gets the tray's stroke against the body in metres.</summary>
    public double? TrayToBody { get; init; }

    /// <summary>Gets the captured voltage over full voltage; null where it was entered, for then nobody looked at this capture's.</summary>
    public double? SupplyShare { get; init; }

    /// <summary>Gets how far the motion's fundamental runs ahead of the supply, in degrees from -180 to 180.</summary>
    public double? SupplyPhaseDegrees { get; init; }

    /// <summary>Gets the number of windows in which the feeder ran steadily.</summary>
    public int SteadyWindows { get; init; }

    /// <summary>Gets the number of coast-downs.</summary>
    public int CoastDowns { get; init; }

    /// <summary>Gets why there is no stroke; null where there is one.</summary>
    public string? Reason { get; init; }

    /// <summary>Reads the features off a report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="samples">The capture's samples.</param>
    /// <param name="missing">The samples that are missing from it.</param>
    public static CaptureFeatures Of(AssessmentReport report, long samples, long missing)
    {
        var (stroke, mounting) = (report.Stroke, report.Mounting);
        var strokes = report.Windows.Where(window => window.Reading.StrokeMetres is not null && window.Reading.Quality == WindowQuality.Good)
            .Select(window => window.Reading.StrokeMetres!.Value).ToList();
        List<DecayReading> stops = [.. report.Decays], starts = [.. report.Starts.Select(start => start.Decay).OfType<DecayReading>()], all = [.. stops, .. starts];
        var natural = FreeDecays.Frequency(all);
        var damping = FreeDecays.Damping(all);
        var tuning = FreeDecays.Tuning(all);
        return new()
        {
            Stroke = stroke.Stroke,
            StrokeUncertainty = stroke.Uncertainty,
            StrokeScatter = strokes.Count > 1 ? WindowStatistics.Scatter(strokes) / strokes.Average() : null,
            DriveHz = report.FrequencyHz,
            NaturalHz = natural?.Value,
            NaturalUncertaintyHz = natural?.Uncertainty,
            StartLessStopHz = FreeDecays.Frequency(starts)?.Value - FreeDecays.Frequency(stops)?.Value,
            DampingRatio = damping?.Value,
            DampingUncertainty = damping?.Uncertainty,
            TuningRatio = tuning?.Value,
            TuningUncertainty = tuning?.Uncertainty,
            Levels = report.Levels,
            LineAngleDegrees = mounting?.LineDegrees ?? stroke.LineAngleDegrees,
            LineUncertaintyDegrees = mounting?.LineUncertaintyDegrees,
            AskewDegrees = mounting?.AskewDegrees,
            EllipseRatio = stroke.EllipseRatio,
            TiltDegrees = mounting?.TiltDegrees,
            MeanAcceleration = mounting?.Gravity?.Norm,
            Strike = report.Strike.Found,
            StrikeScore = report.Strike.ScoreMax,
            StrikeScoreMedian = ReportBuilder.Median(report.Windows, window => window.Reading.StrikeScore),
            ClippedShare = samples > 0 ? Math.Min(1, report.ClippedSamples / (double)samples) : 0,
            MissingShare = samples + missing > 0 ? missing / (double)(samples + missing) : 0,
            SilentShare = Math.Max(report.Windows.Count > 0 ? report.Windows.Count(Silent) / (double)report.Windows.Count : 0, LeftOut(report.Sensors)),
            ClockError = report.ClockError,
            Sensors = report.Sensors?.Sensors ?? [],
            FrontRear = report.Sensors?.FrontRear.Relative,
            LeftRight = report.Sensors?.LeftRight.Relative,
            FrontRearPhaseDegrees = PhaseApart(report.Sensors),
            TrayToBody = report.Sensors?.Relative.Stroke,
            SupplyShare = report.Supply is { Captured: true } supply ? supply.ShareOfFull : null,
            SupplyPhaseDegrees = report.Supply?.PhaseDegrees,
            SteadyWindows = strokes.Count,
            CoastDowns = report.Decays.Count,
            Reason = stroke.Stroke is null ? stroke.Reason : null,
        };
    }

    private static bool Silent(AssessedWindow window) => window.Reading is { StrokeMetres: null, Quality: WindowQuality.Noisy, Motion: not MotionState.Stopped };

    /// <summary>Gives the share of the windows in which one of several sensors gives nothing while another does.</summary>
    private static double LeftOut(SeveralSummary? several)
    {
        var good = several?.Sensors.Where(sensor => SensorPlaces.IsOnTray(sensor.Place)).Select(sensor => (double)(sensor.WindowsGood + sensor.WindowsClipped)).ToList();
        return good is { Count: > 1 } && good.Max() > 0 ? 1 - good.Min() / good.Max() : 0;
    }

    private static double? PhaseApart(SeveralSummary? several)
    {
        double? At(SensorPlace place) => several?.Sensors.FirstOrDefault(sensor => sensor.Place == place)?.PhaseDegrees;
        return At(SensorPlace.Front) - At(SensorPlace.Rear) is { } apart ? Math.IEEERemainder(apart, 360) : null;
    }
}
