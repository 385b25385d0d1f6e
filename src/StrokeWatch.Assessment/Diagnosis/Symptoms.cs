using System.Globalization;
using System.Numerics;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>The table of symptoms; a new symptom is a line here.</summary>
internal static class Symptoms
{
    public const string Natural = "natural-frequency", Damping = "damping", Pull = "pull", Stroke = "stroke", Side = "tuning-side", Angle = "line-angle", Ellipse = "ellipse";
    public const string Second = "second-order", Third = "third-order", High = "high-orders", SecondPhase = "second-order-phase";
    public const string Across = "across-line", Half = "half-order", Noise = "noise", Slow = "slow-noise", Crest = "noise-crest", Scatter = "stroke-scatter", Strike = "strike";
    public const string FrontRear = "front-rear", EndsPhase = "front-rear-phase", Tilt = "tilt", Gravity = "gravity", Clipped = "clipped", RailPeaks = "rail-peaks", Silent = "silent";
    public const string Voltage = "supply-voltage", PullPhase = "pull-phase";

    private const string Coast = "Stop the feeder once and let it coast down while the sensor records.";
    private const string Run = "Record ten seconds of steady running.";
    private const string Ends = "Measure at the front and at the rear of the tray at once.";
    private const string Channel = "Record the supply's voltage beside the motion, as supply_v (licensed persons only).";
    private const double Floor = 2e-3;
    private const double LeastScore = 0.5, NoScore = 0.05;

    /// <summary>The samples that blows bring to the rail, at most; a sensor whose range is too small has more there.</summary>
    private const double BlowShare = 0.05;

    /// <summary>Gets all symptoms.</summary>
    public static IReadOnlyList<Symptom> All { get; } =
    [
        new(Natural, "Natural frequency of the tray on its leaves", 0.004, Coast, of => Log(of.NaturalHz), (from, to) => Change("Hz", Math.Exp(from), Math.Exp(to), 2)),
        new(Damping, "How fast a coast-down dies away (damping ratio)", 0.06, Coast, of => Log(of.DampingRatio), (from, to) => Change("", Math.Exp(from), Math.Exp(to), 4)),
        new(Pull, "The magnet's pull for the tray's mass, worked out from stroke, natural frequency and damping", 0.03, Coast, PullOf, (from, to) => Percent(to - from)),
        new(Stroke, "Stroke", 0.04, Run, of => of.NaturalHz is null ? Log(of.Stroke) : null, (from, to) => $"from {Length.FromMetres(Math.Exp(from))} to {Length.FromMetres(Math.Exp(to))}"),
        new(Side, "Natural frequency over drive frequency, below 1 on the reverse side", 0.004, Coast, of => Math.Min(0, of.TuningRatio - 1 ?? 0) is var below && of.TuningRatio is not null ? below : null,
            (_, to) => Text($"{1 + to:0.000}")) { Healthy = 0 },
        new(Angle, "Line of action", 0.4, Run, of => of.LineAngleDegrees, (from, to) => Change("°", from, to, 1)) { Turn = 180 },
        new(Ellipse, "Movement across the line of action over that along it", 0.008, Run, of => of.EllipseRatio, (from, to) => Change("", from, to, 3)),
        Order(Second, "Movement at twice the drive's frequency (second order)", of => of.Orders[1]),
        Order(Third, "Movement at three times the drive's frequency (third order)", of => of.Orders[2]),
        Order(High, "Sharp movement far above the drive's frequency (orders 6 to 10)", of => of.High),
        new(SecondPhase, "Shape of the movement (phase of the second order)", 4, Run, of => of.Levels is { } levels && levels.Orders[1] > Floor ? levels.SecondPhaseDegrees : null,
            (from, to) => Change("°", from, to, 0)) { Turn = 360 },
        Order(Across, "Sharp movement across the line of action", of => of.Across),
        Order(Half, "Movement at half the drive's frequency", of => of.Half),
        Level(Noise, "Vibration that does not go with the drive (noise)", of => of.Noise),
        Level(Slow, "Slow vibration that does not go with the drive", of => of.Slow),
        new(Crest, "How uneven that vibration is in time", 0.25, Run, of => Log(of.Levels?.NoiseCrest), (from, to) => Change("", Math.Exp(from), Math.Exp(to), 2)),
        new(Scatter, "How much the stroke varies from half second to half second", 0.5, Run, of => Log(of.StrokeScatter + 1e-4), (from, to) => Change("%", 100 * Math.Exp(from), 100 * Math.Exp(to), 2)),
        new(Strike, "Armature strike (score, 1 is the threshold)", 0.3, Run, of => Log(Told(of.StrikeScoreMedian) + NoScore), (from, to) => $"from {Score(from)} to {Score(to)}") { ByNewest = true },
        new(FrontRear, "Stroke at the front less that at the rear, over their mean", 0.006, Ends, of => of.FrontRear, (from, to) => Change("%", 100 * from, 100 * to, 1)),
        new(EndsPhase, "How far the front runs ahead of the rear", 0.8, Ends, of => of.FrontRearPhaseDegrees, (from, to) => Change("°", from, to, 1)) { Turn = 360 },
        new(Tilt, "Tilt of the sensor", 0.4, Run, of => of.TiltDegrees, (from, to) => Change("°", from, to, 1)),
        new(Gravity, "Gravity as the sensor reads it", 0.05, Run, of => of.MeanAcceleration, (from, to) => Change("m/s²", from, to, 2)),
        new(Clipped, "Samples at the end of the sensor's range (its rail) beyond what blows bring there", 0.01, Run, of => Math.Max(0, of.ClippedShare - BlowShare), (_, to) => Text($"{100 * (to + BlowShare):0.#} % of all samples")) { Healthy = 0 },
        new(RailPeaks, "Short peaks that reach the end of the sensor's range (its rail), as blows do", 5e-4, Run, of => of.ClippedShare > BlowShare ? 0 : of.ClippedShare, (_, to) => Text($"{100 * to:0.##} % of all samples")) { Healthy = 0 },
        new(Silent, "Time in which the sensor says one value again and again", 2e-3, Run, of => of.SilentShare, (_, to) => Text($"{100 * to:0.#} %")) { Healthy = 0 },
        new(Voltage, "The supply's voltage over full voltage", 0.01, Channel, of => Log(of.SupplyShare), (from, to) => Change("%", 100 * Math.Exp(from), 100 * Math.Exp(to), 1)),
        new(PullPhase, "When in the supply's cycle the magnet pulls, worked out from the motion's phase, natural frequency and damping", 3, Channel + " " + Coast, PullPhaseOf,
            (from, to) => Change("°", from, to, 0)) { Turn = 360 },
    ];

    /// <summary>Gets what a hammering armature overlays, so that it tells nothing while one is heard.</summary>
    public static IReadOnlySet<string> Overlaid { get; } =
        new HashSet<string>(StringComparer.Ordinal) { Second, Third, High, SecondPhase, Across, Half, Noise, Slow, Crest, Scatter, PullPhase };

    /// <summary>Gives a strike's score as far as it says anything: below half the threshold it goes up and down with the machine's own orders.</summary>
    private static double? Told(double? score) => score < LeastScore ? 0 : score;

    private static string Score(double logarithm) => Math.Exp(logarithm) - NoScore is var score && score < LeastScore ? Text($"below {LeastScore}") : Text($"{score:0.0}");

    private static Symptom Order(string id, string words, Func<LevelSummary, double> of) =>
        new(id, words, 0.15, Run, features => features.Levels is { } levels ? Math.Log(of(levels) + Floor) : null,
            (from, to) => Change("% of the stroke's own", 100 * (Math.Exp(from) - Floor), 100 * (Math.Exp(to) - Floor), 2));

    private static Symptom Level(string id, string words, Func<LevelSummary, double> of) =>
        new(id, words, 0.2, Run, features => features.Levels is { } levels ? Math.Log(of(levels) + 1e-3) : null,
            (from, to) => Change("m/s²", Math.Exp(from), Math.Exp(to), 2));

    /// <summary>
    /// Gives ln of the pull over the tray's mass: of the tray's stroke X = (F/m₁)/|ωₙ² − ω² + 2iζωₙω| (Harris, Shock and Vibration Handbook, ch. 2) only that is left
    /// once natural frequency and damping are known, so that a change of stiffness alone does not show in it.
    /// </summary>
    private static double? PullOf(CaptureFeatures of)
    {
        if (of is not { Stroke: > 0 and var stroke, DriveHz: > 0 and var drive, NaturalHz: > 0 and var natural, DampingRatio: > 0 and var damping })
        {
            return null;
        }

        var ratio = natural / drive;
        return Math.Log(stroke * Complex.Abs(new Complex(ratio * ratio - 1, 2 * damping * ratio)));
    }

    /// <summary>
    /// Gets the phase of the pull against the supply in degrees, up to a constant of the mounting: of the motion's only what is left once the lag atan2(2ζr, r² − 1), r natural over
    /// drive frequency, is taken off (Harris, Shock and Vibration Handbook, ch. 2), so that a change of stiffness or mass alone does not show in it.
    /// </summary>
    private static double? PullPhaseOf(CaptureFeatures of) =>
        of is { SupplyPhaseDegrees: { } phase, DriveHz: > 0 and var drive, NaturalHz: > 0 and var natural, DampingRatio: > 0 and var damping }
            ? phase + Math.Atan2(2 * damping * natural / drive, natural / drive * (natural / drive) - 1) * 180 / Math.PI : null;

    private static double? Log(double? value) => value > 0 ? Math.Log(value.Value) : null;

    private static string Change(string unit, double from, double to, int digits)
    {
        var format = "0." + new string('0', digits);
        var gap = unit.Length > 0 && unit != "°" ? " " : "";
        return $"from {from.ToString(format, CultureInfo.InvariantCulture)}{gap}{unit} to {to.ToString(format, CultureInfo.InvariantCulture)}{gap}{unit}";
    }

    private static string Percent(double logarithm) => Text($"{100 * (Math.Exp(logarithm) - 1):+0.0;-0.0;0.0} %");

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
