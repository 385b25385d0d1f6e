using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Reports.Html;

/// <summary>Every English word of the page, in one place.</summary>
internal static class ReportWords
{
    public const string Caution =
        "StrokeWatch is not a safety function. It must never be the only means of stopping a feeder, and a stroke that could not be measured is not a stroke that is well. "
        + "Stop the feeder, isolate it and lock it out before hands go near; local rules and licensed persons come first.";

    public const string Captures = "Captures on this page";
    public const string Capture = "Capture";
    public const string Stroke = "Stroke, peak to peak";
    public const string Verdict = "Verdict";
    public const string Strike = "Armature strike";
    public const string NoStroke = "No stroke";
    public const string NoDate = "All times count from the first sample of the capture. No date is printed because none was read from it.";

    public const string StrokeHeading = "Stroke over time";
    public const string PortraitHeading = "One window, looked at closely";
    public const string BudgetHeading = "Where the uncertainty comes from";
    public const string FindingsHeading = "What was found, and what to check first";
    public const string AlarmsHeading = "Alarms";
    public const string DecaysHeading = "Coast-downs";
    public const string StartsHeading = "Starts";
    public const string FactsHeading = "The capture itself";

    public const string OverTime = "What the captures say together";
    public const string AsItWas = "The machine is as it was; nothing points to a fault.";
    public const string DaysAxis = "days since the first capture";
    public const string SpreadAxis = "× usual spread from healthy";
    public const string NoFindings = "No rule found anything wrong.";
    public const string NoAlarms = "No alarm was raised.";
    public const string NoDecays = "The feeder was not switched off in this capture in a way that lets its free decay be read.";
    public const string NoStarts = "The feeder was not switched on in this capture.";
    public const string NoBudget = "Without a stroke there is no uncertainty to break down.";
    public const string NoWindows = "There is nothing to draw: the capture holds no window of ten cycles of the drive.";
    public const string NothingCounted = "Hatched: the band. There is no line because no window counts; the lanes say why.";
    public const string NoWindowCounted = "There is no window to look at: none counts towards a stroke.";
    public const string ReadOnce = "The capture came through a pipe and can be read only once; to see waveform, path and spectrum, replay it from a file.";
    public const string NotFoundAgain = "The capture was opened a second time for this, and the same window was not found in it: has the file changed meanwhile?";
    public const string NoPath = "The path in the x-z plane needs both the x and the z axis; this capture does not hold them.";

    public const string AccelerationUnit = "m/s²";
    public const string Decibels = "dB re order 1";
    public const string NoiseLevel = "noise, 95 %";
    public const string WaveformTime = "time from the left edge, ms";
    public const string PathAlong = "along the tray (x), mm";
    public const string PathUp = "up (z), mm";
    public const string WaveformSays = "Waveform of the acceleration along the line of action over three cycles";
    public const string PathSays = "Path of the tray in the x-z plane with its line of action";
    public const string SpectrumSays = "Acceleration along the line of action by order of the drive";
    public const string WaveformTitle = "Waveform";
    public const string HighSays = "Acceleration along the line of action over three cycles, without the low orders";
    public const string PathTitle = "Path";
    public const string SpectrumTitle = "Spectrum in orders of the drive";
    public const string WaveformDots = "Acceleration along the line of action, three cycles, gravity taken off. Dots: samples. Line: the fitted harmonics.";
    public const string WaveformLine = "Acceleration along the line of action, three cycles, gravity taken off. Thin line: samples. Thick line: the fitted harmonics.";
    public const string PathCaption = "One cycle of displacement, both directions at the same scale. Dashed: line of action; the ticks across it mark the stroke.";

    public const string Combined = "Combined standard uncertainty";
    public const string Expanded = "Expanded uncertainty, k = 2";
    public const string RootOfSquares = "root of the sum of squares";
    public static readonly string[] BudgetColumns = ["Contribution", "Known from", "Standard uncertainty, mm", "Relative, %", "Share"];

    public static readonly string[] SummaryColumns = [Capture, Stroke, Verdict, Strike];
    public static readonly string[] AlarmColumns = ["Raised", "Cleared", "Kind", "What the operator was told"];
    public static readonly string[] DecayColumns = ["From", "Natural frequency, Hz", "Expanded uncertainty, Hz", "Damping ratio", "Expanded uncertainty", "Natural over drive frequency", "Side of the tuning curve"];
    public const string ToTheEnd = "not before the end";
    public const string Because = "Because";
    public const string CheckFirst = "Check first";

    public static string Title(IReadOnlyList<ReportedCapture> captures) => captures.Count == 1
        ? $"{captures[0].Result.Report.Feeder.Name}: stroke from {captures[0].Result.File}"
        : $"{captures[0].Result.Report.Feeder.Name}: stroke from {Figure.Count(captures.Count)} captures";

    public static string Model(string model) => $"model {model}";

    public static string Of(Verdict verdict) => verdict switch
    {
        Assessment.Verdicts.Verdict.InBand => "In the band",
        Assessment.Verdicts.Verdict.Low => "Low: below the band",
        Assessment.Verdicts.Verdict.High => "High: above the band, below the limit",
        Assessment.Verdicts.Verdict.OverStroke => "Over-stroke. Stop the feeder",
        Assessment.Verdicts.Verdict.Stopped => "Standing still",
        _ => "Could not be measured",
    };

    public static string VerdictSign(Verdict verdict) => verdict switch
    {
        Assessment.Verdicts.Verdict.InBand => "M-7 -7V7M7 -7V7M-3 0H3",
        Assessment.Verdicts.Verdict.Low => "M-8 -7H8M0 -3V8M-4 4L0 8L4 4",
        Assessment.Verdicts.Verdict.High => "M-8 7H8M0 3V-8M-4 -4L0 -8L4 -4",
        Assessment.Verdicts.Verdict.OverStroke => "M-7 -7L7 7M-7 7L7 -7",
        Assessment.Verdicts.Verdict.Stopped => "M-6 -6H6V6H-6Z",
        _ => "M-8 0H-4M-1.5 0H1.5M4 0H8",
    };

    public static string Of(StrikeSummary strike) =>
        strike.Found ? $"Strike heard from {Figure.Of(strike.FirstSeconds ?? 0, 1)} s on, in {Windows(strike.Windows)}. Stop the feeder"
        : strike.ScoreMax is { } score
            ? $"{(strike.Windows == 0 ? "None heard" : $"Heard in {Figure.Count(strike.Windows)} of {Windows(strike.Judged)}, as chance alone may do")}"
                + (strike.Open ? $", but one cannot be ruled out in {Figure.Count(strike.Possible)} of {Windows(strike.Judged)}; a higher sampling rate tells more" : "")
                + $" (largest score {Figure.Of(score, 2)}; 1 is the threshold)"
        : "Could not be judged";

    public static string CourseSays(SymptomReading symptom) => $"{symptom.Sentence()} Over the captures, in spreads of the healthy machine; hatched: where nineteen of twenty healthy captures lie.";

    public static string Expand(double metres) => $"± {Figure.BothUp(metres)}, expanded uncertainty, k = 2";

    public static string MedianOf(int counted, int windows) => $"Median of {Figure.Count(counted)} of {Windows(windows)} in which the feeder ran steadily.";

    public static string Range(double least, double most) => $"Smallest {Figure.Both(least)}, largest {Figure.Both(most)}.";

    public static string Line(double angle, double? ellipse) => $"Line of action {Figure.Of(angle, 1)}° above the x axis"
        + (ellipse is { } ratio ? $"; across it the tray moves {Figure.Of(100 * ratio, 1)} % as far." : ".");

    public static string BandShort(double low, double high) => $"band {Figure.Millimetres(low)} to {Figure.Millimetres(high)} mm";

    public static string LimitShort(double limit) => $"limit {Figure.Millimetres(limit)} mm";

    public static string BandLabel(double low, double high) => $"band {Figure.Millimetres(low)} to {Figure.Millimetres(high)} mm";

    public static string LimitLabel(double limit) => $"over-stroke limit {Figure.Millimetres(limit)} mm";

    public static string RuleSays(AssessmentReport report) => report.Stroke.Stroke is { } stroke
        ? $"A rule with the stroke at {Figure.Both(stroke)}, the band from {Figure.Both(report.Feeder.Band.Low.Metres)} to {Figure.Both(report.Feeder.Band.High.Metres)} and the limit at {Figure.Both(report.Feeder.Band.Limit.Metres)}"
        : $"A rule without a stroke; the band from {Figure.Both(report.Feeder.Band.Low.Metres)} to {Figure.Both(report.Feeder.Band.High.Metres)} and the limit at {Figure.Both(report.Feeder.Band.Limit.Metres)}";

    public static string StrokePlotSays(AssessmentReport report) => $"Stroke over time in {Windows(report.Windows.Count)}, with the band and the limit";

    public static string StrokeCaption(bool thinned) => "Line: stroke. Ribbon with dashed edges: expanded uncertainty, k = 2. Hatched: the band."
        + (thinned ? " There are more windows than can be drawn: each place shows the smallest and the largest of its windows." : " One point a window.")
        + " The line breaks where windows do not count; the lanes say why.";

    public const string BoundCaption = " Arrows: where the sensor clips or may clip, the tray moves at least as far as the arrow's foot.";

    public static string TimeAxis(string symbol) => $"time from the first sample, {symbol}";

    public static string LaneQuality(WindowQuality quality) => quality switch
    {
        WindowQuality.Transient => "not counted: starting, stopping or changing",
        WindowQuality.Clipped => "not counted: sensor at its rail",
        WindowQuality.Gap => "not counted: samples missing",
        _ => "not counted: noise hides the stroke",
    };

    public const string LaneStopped = "not counted: tray stands still";
    public const string LaneStrike = "strike heard";

    public static string LaneAlarm(AlarmKind kind) => $"alarm: {Names.Of(kind)}";

    public static string Windowed(in WindowReading window) =>
        $"Window from {Figure.Of(window.StartSeconds, 2)} s to {Figure.Of(window.StartSeconds + window.LengthSeconds, 2)} s, stroke {Figure.Both(window.StrokeMetres!.Value)}: "
        + (window.Strike ? "of the windows in which strike was heard, the one whose stroke is nearest their median." : "the one whose stroke is nearest the median.");

    public static string PathStroke(double metres) => $"stroke {Figure.Both(metres)}";

    public static string PathLine(double degrees) => $"line of action {Figure.Of(degrees, 1)}° above x";

    public static string Orders(double hertz) => $"order of the drive (1 is {Figure.Of(hertz, 2)} Hz)";

    public static string HeardOrders(int first) => $"listened to for strike: order {Figure.Count(first)} and up";

    public static string HighTitle(int first) => $"Orders {Figure.Count(first)} and up alone";

    public static string HighCaption(int first) =>
        $"The same three cycles without orders 1 to {Figure.Count(first - 1)}, enlarged: this is where a strike shows, as a knock at the same place of each cycle, or of every second or third.";

    public static string SpectrumCaption(int? firstStrike, bool strike, double? score, int? parts) =>
        "Acceleration along the line of action. "
        + (firstStrike is { } first ? $"Solid bars: orders below {Figure.Count(first)}. Hatched bars: orders in which a strike is listened for. " : "The sampling rate is too low to listen for strike. ")
        + "Hollow bars do not stand out of the noise; dashed: what noise stays below in 95 of 100 orders."
        + (parts is { } some ? $" Thin bars between the orders: {(some == 2 ? "halves" : "thirds")} of an order." : "")
        + (score is { } value ? $" Strike score of this window: {Figure.Of(value, 2)}; 1 is the threshold" + (strike ? ", so a strike is heard." : ".") : "");

    public static string Covers(double share) => $"covers {Figure.Of(100 * share, 1)} %, as stated with the stroke";

    public static string Contribution(string name) => name switch
    {
        StrokeBudget.Noise => "Noise and other vibration",
        StrokeBudget.Repeatability => "Scatter of the windows",
        StrokeBudget.Resolution => "Last digit written",
        StrokeContributions.Sensitivity => "Sensor's sensitivity",
        StrokeContributions.Frequency => "Drive frequency (counts twice)",
        StrokeContributions.Alignment => "Alignment with the line of action",
        StrokeContributions.CrossAxis => "Axes that hear each other",
        StrokeContributions.TimingJitter => "Unsteady sampling",
        StrokeContributions.HiddenCut => "A cut at the sensor's rails that cannot be seen",
        _ => name,
    };

    public static IEnumerable<(string Name, string Value)> Facts(ReplayResult result)
    {
        var (report, counters) = (result.Report, result.Counters);
        yield return ("File", result.File);
        yield return ("Format", result.Source.Format);
        yield return ("Axes", string.Join(", ", ChannelNames.Of(result.Source.Axes, result.Source.Places)));
        yield return ("Length", $"{Figure.Of(result.DurationSeconds, 2)} s, {Figure.Count(counters.Samples)} samples");
        yield return ("Sampling rate", result.RateHz > 0 ? $"{Figure.Of(result.RateHz, 2)} Hz, {RateFrom(result.Source)}" : "not known");
        if (report.FrequencyHz is { } hertz)
        {
            yield return ("Drive", $"{Figure.Of(hertz, 3)} Hz, {ClockSource.Words(result.Source, report)}");
        }

        if (ClockSource.Error(result.Source, report) is { } error)
        {
            yield return ("Sensor's clock", $"off by {Figure.Of(1e6 * error, 0)} ppm against the {(report.Feeder.Drive.Free ? "time stamps" : "mains")}; the stroke is corrected for it");
        }

        if (report.Supply is { } supply)
        {
            yield return ("Supply", Sentence(SupplyText.Words(supply)) + (supply.Reason is { } why ? $" {Sentence(why)}" : ""));
            yield return ("Stroke at full voltage", supply is { FullStroke: { } full, FullUncertainty: { } own } ? $"{Figure.Both(full)} {Expand(own)}" : "not known");
        }

        yield return ("Windows", string.Join(", ", Counted(report)));
        yield return ("Gaps", counters.Gaps == 0 ? "none" : $"{Figure.Count(counters.Gaps)}, {Figure.Count(counters.MissingSamples)} samples missing");
        yield return ("Clipped samples", report.ClippedSamples == 0 ? "none" : Figure.Count(report.ClippedSamples));
        yield return ("Rows rejected", counters.Rejected.Count == 0 ? "none" : string.Join(", ", counters.Rejected.Select(pair => $"{Figure.Count(pair.Value)} {pair.Key}")));
        foreach (var guess in result.Guesses)
        {
            yield return ("Guessed", guess);
        }
    }

    private static IEnumerable<string> Counted(AssessmentReport report)
    {
        yield return $"{Figure.Count(report.Windows.Count)} in all";
        yield return $"{Figure.Count(report.Windows.Count(window => StrokeTrace.Counts(window)))} counted";
        foreach (var quality in (WindowQuality[])[WindowQuality.Transient, WindowQuality.Clipped, WindowQuality.Gap, WindowQuality.Noisy])
        {
            if (report.Count(quality) is > 0 and var count)
            {
                yield return $"{Figure.Count(count)} {Names.Of(quality)}";
            }
        }

        if (report.Windows.Count(window => window.Verdict == Assessment.Verdicts.Verdict.Stopped) is > 0 and var still)
        {
            yield return $"{Figure.Count(still)} standing still";
        }
    }

    private static string Sentence(string words) => $"{char.ToUpperInvariant(words[0])}{words[1..]}.";

    private static string RateFrom(SourceInfo source) => source.RateHz is null ? "taken from the drive's own line" : source.RateFrom switch
    {
        RateOrigin.Timestamps => "from the time stamps",
        RateOrigin.Option => "given by the user",
        _ => "from the file's header",
    };

    private static string Windows(int count) => count == 1 ? "1 window" : $"{Figure.Count(count)} windows";
}
