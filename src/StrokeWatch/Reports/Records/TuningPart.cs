using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Reports.Html;
using StrokeWatch.Reports.Sheets;

namespace StrokeWatch.Reports.Records;

/// <summary>The sections on tuning: the trials, and the tuning curve with the operating point, the band and the trials.</summary>
internal static class TuningPart
{
    private static readonly string[] Columns = ["Trial", "Rear stack", "Stroke", "At full voltage", "Natural frequency, Hz", "Damping ratio", "Voltage, %", "Tray, kg more", "In the band?"];

    /// <summary>Makes the section on the trials.</summary>
    public static RecordSection Trials(RecordInput input) => new("Tuning trials", input.Trials.Count == 0
        ? [new RecordText($"No trials were given, so nothing is recorded here of how the feeder was tuned. {input.TrialsFrom}".TrimEnd())]
        :
        [
            new RecordTable(Columns, [.. input.Trials.Select((trial, i) => Row(trial, i + 1, input.Feeder))]),
            .. input.TrialsFrom.Length > 0 ? [new RecordText(input.TrialsFrom)] : (IReadOnlyList<RecordBlock>)[],
            new RecordText($"Empty tray. At full voltage: the stroke brought to full voltage by the {(input.Feeder.Supply?.Biased == true ? "voltage (the magnet has a flux of its own)" : "square of the voltage")}; where no voltage was read it is taken as full. Natural frequency is that of the free decay.", RecordTextKind.Detail),
        ]);

    /// <summary>Makes the section on the curve.</summary>
    public static RecordSection Curve(RecordInput input)
    {
        const string Heading = "Tuning curve";
        if (input.Feeder.Springs is null || input.Feeder.Masses is null)
        {
            return new(Heading, [new RecordText("No tuning curve is drawn: it needs [springs] and [masses] in the feeder file.")]);
        }

        var sheet = CurveSheet.Make(new SheetInput(input.Feeder, input.Trials));
        return new(Heading,
        [
            new RecordPicture(surface => SheetDrawing.Draw(surface, sheet.Plot, RecordPicture.Width), $"{sheet.Plot.Says} Rests on {sheet.From}."),
            new RecordFacts([.. sheet.Facts.Take(6).Select(fact => (Sentence(fact.Name), fact.Words))]),
            .. sheet.Notes.Select(note => new RecordText($"{Sentence(note)}.", RecordTextKind.Detail)),
        ]);
    }

    private static IReadOnlyList<string> Row(TuningTrial trial, int number, FeederDescription feeder) =>
    [
        Figure.Count(number),
        Stacks.Words(trial.Rear),
        trial.StrokeMetres is { } stroke ? Figure.Both(stroke) : "not read",
        trial.FullVoltageStroke(feeder) is { } full ? Figure.Both(full) : "not known",
        trial.NaturalHz is { } hertz ? Figure.Of(hertz, 2) : "not read",
        trial.DampingRatio is { } damping ? Figure.Of(damping, 4) : "not read",
        trial.VoltageRead ? Figure.Of(100 * trial.VoltageRatio, 1) : "taken as full",
        Figure.Of(trial.TrayChangeKilograms, 1),
        trial.FullVoltageStroke(feeder) is { } judged ? Judge(new BandJudge(feeder.Band).Place(judged)) : "not known",
    ];

    private static string Judge(Verdict verdict) => verdict switch
    {
        Verdict.InBand => "yes",
        Verdict.Low => "no, low",
        Verdict.High => "no, high",
        _ => "no, over-stroke",
    };

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
