using System.Globalization;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports;

/// <summary>
/// The live line: the stroke against its band, in words and as a scale. In a terminal it stays in place below what else is said; elsewhere it is written
/// when something changes and every ten seconds.
/// </summary>
internal sealed class LivePanel(TextWriter writer, bool terminal, FeederDescription feeder, TimeProvider time) : IChainListener
{
    private const int ScaleWidth = 24;

    /// <summary>The difference from full voltage from which the stroke at full voltage is said beside the present one: 1 % moves a stroke by 2 %.</summary>
    private const double WorthSaying = 0.01;

    private static readonly TimeSpan Quiet = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Stale = TimeSpan.FromSeconds(2);

    private readonly Lock gate = new();
    private readonly HashSet<(AlarmKind Kind, SensorPlace? Place)> active = [];
    private string line = "";
    private string lastWords = "";
    private long written;
    private long heard;

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        lock (gate)
        {
            heard = time.GetTimestamp();
            var words = Words(window);
            line = Line(window, words);
            if (terminal)
            {
                Draw();
            }
            else if (words != lastWords || time.GetElapsedTime(written) >= Quiet)
            {
                writer.WriteLine(line);
                (lastWords, written) = (words, time.GetTimestamp());
            }
        }
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay) => Say($"Coast-down: {TransientWords.Of(decay)}.");

    /// <inheritdoc/>
    public void Start(in StartReading reading) => Say($"Start: {TransientWords.Of(reading)}.");

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
        lock (gate)
        {
            _ = transition.Raised ? active.Add((transition.Kind, transition.Place)) : active.Remove((transition.Kind, transition.Place));
            Say($"{(!transition.Raised ? "clear" : transition.Kind == AlarmKind.MachineChanged ? "CHECK" : "ALARM")}  {transition.Words}");
        }
    }

    /// <inheritdoc/>
    public void Finding(FindingTransition transition)
    {
        foreach (var text in transition.Raised ? FindingText.Lines(transition.Finding) : [$"no longer found: {transition.Finding.Id}"])
        {
            Say($"       {text}");
        }
    }

    /// <inheritdoc/>
    public void Baseline(string words) => Say($"Baseline: {words}.");

    /// <summary>Says a line that stays, above the live line.</summary>
    public void Say(string text)
    {
        lock (gate)
        {
            Erase();
            writer.WriteLine($"{Clock()}  {text}");
            Draw();
        }
    }

    /// <summary>Makes room for somebody else's lines on the terminal.</summary>
    public void MakeWay(Action say)
    {
        lock (gate)
        {
            Erase();
            say();
            Draw();
        }
    }

    /// <summary>Shows that the reading is old where nothing has come for two seconds; a stale reading must look stale.</summary>
    public void Beat()
    {
        lock (gate)
        {
            if (terminal && heard != 0 && time.GetElapsedTime(heard) is var age && age > Stale)
            {
                line = string.Create(CultureInfo.InvariantCulture, $"{Clock()}  {feeder.Name}: NO READING for {age.TotalSeconds:0} s");
                Draw();
            }
        }
    }

    /// <summary>Gives the scale: the band between bars, the limit as an exclamation mark, the stroke as an o.</summary>
    internal static string Scale(StrokeBand band, double? strokeMetres)
    {
        var low = 2 * band.Low.Metres - band.High.Metres;
        var top = band.Limit.Metres + 0.5 * (band.Limit.Metres - band.High.Metres);
        int At(double metres) => (int)Math.Round(Math.Clamp((metres - low) / (top - low), 0, 1) * (ScaleWidth - 1));
        var scale = new string('.', ScaleWidth).ToCharArray();
        scale[At(band.Low.Metres)] = '|';
        scale[At(band.High.Metres)] = '|';
        scale[At(band.Limit.Metres)] = '!';
        if (strokeMetres is { } stroke)
        {
            scale[At(stroke)] = 'o';
        }

        return new(scale);
    }

    private static string Words(in AssessedWindow window) => window.Reading switch
    {
        { Strike: true } => "STRIKE. Stop the feeder",
        { Quality: WindowQuality.Good } => ReplayText.Words(window.Verdict),
        { Reason: { } reason } => reason,
        _ => "not measured",
    };

    private string Line(in AssessedWindow window, string words)
    {
        var reading = window.Reading;
        var stroke = reading is { Quality: WindowQuality.Good, StrokeMetres: { } metres }
            ? string.Create(CultureInfo.InvariantCulture, $"{Length.FromMetres(metres)} ±{Html.Figure.MillimetresUp(reading.UncertaintyMetres ?? 0)} mm")
            : "--.--- mm (--.---- in)";
        var changed = active.Contains((AlarmKind.MachineChanged, null));
        var urgent = active.Count - (changed ? 1 : 0);
        var alarms = (urgent == 0 ? "" : $"  alarms {urgent}") + (changed ? "  machine changed" : "");
        return $"{Clock()}  {feeder.Name}  {stroke}  {Scale(feeder.Band, reading.StrokeMetres)}  {words}{Supply(reading)}{alarms}";
    }

    /// <summary>Gives the supply's voltage, and the stroke at full voltage where the present one is not it.</summary>
    private string Supply(in WindowReading reading)
    {
        var now = SupplyNow.Of(reading, feeder);
        if (now.Reading.MainsVolts is not { } volts)
        {
            return "";
        }

        var share = now.ShareOfFull is { } of ? string.Create(CultureInfo.InvariantCulture, $", {100 * of:0.0} % of full") : "";
        var full = now.FullStroke is { } stroke && Math.Abs(now.ShareOfFull!.Value - 1) >= WorthSaying ? string.Create(CultureInfo.InvariantCulture, $" (at full voltage {Length.FromMetres(stroke)})") : "";
        return string.Create(CultureInfo.InvariantCulture, $"  {volts:0.0} V{share}{full}");
    }

    private string Clock() => time.GetLocalNow().ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    private void Erase()
    {
        if (terminal)
        {
            writer.Write("\r\u001b[K");
        }
    }

    private void Draw()
    {
        if (terminal && line.Length > 0)
        {
            writer.Write($"\r{line}\u001b[K");
        }
    }
}
