using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>The section on the period: the stroke as the store holds it, and the alarms.</summary>
internal static class HistoryPart
{
    private const int MostRows = 60;

    private const string Criteria = "Chattering: three announcements within a minute, or as many on average; stale: more than a day; flood: from more than ten in ten minutes until fewer than five. About 150 a day are said to be what one person can take (after IEC 62682 and EEMUA 191).";

    private static readonly string[] Columns = ["Raised", "Ended", "Alarm", "What the operator was told"];

    /// <summary>Makes the section.</summary>
    public static RecordSection Make(RecordInput input)
    {
        const string Heading = "Stroke and alarms over time";
        if (input.History is not { } history)
        {
            return new(Heading, [new RecordText("No store was given, so nothing is recorded here of how the stroke went and which alarms there were.")]);
        }

        var period = $"From {RecordDates.Minute(history.From)} to {RecordDates.Minute(history.To)}";
        var windows = history.Columns.Sum(column => column.Windows);
        var blocks = new List<RecordBlock>();
        if (history.Columns.Count == 0)
        {
            blocks.Add(new RecordText($"{period}, the store holds no window of this feeder whose stroke counts."));
        }
        else
        {
            var (least, most) = (history.Columns.Min(column => column.LeastMetres), history.Columns.Max(column => column.MostMetres));
            blocks.Add(new RecordText($"{period}, {Figure.Count(windows)} windows count. {ReportWords.Range(least, most)}"));
            blocks.Add(new RecordPicture(
                surface => HistoryDrawing.Draw(surface, history, input.Feeder.Band, RecordPicture.Width),
                $"The smallest and the largest stroke of each of {Figure.Count(RecordHistory.Parts)} equal parts of the period, and what lies between them. Hatched: the band. Where nothing is drawn the feeder stood still or nothing was measured. Triangles: alarms raised."));
        }

        blocks.AddRange(Alarms(history));
        return new(Heading, blocks);
    }

    private static IEnumerable<RecordBlock> Alarms(RecordHistory history)
    {
        if (history.Alarms.Count == 0)
        {
            yield return new RecordText("No alarm was raised or stood in the period.");
            yield break;
        }

        var standing = history.Standing;
        yield return new RecordText($"{Figure.Count(history.Alarms.Count)}{(history.Cut ? " or more" : "")} alarm{(history.Alarms.Count == 1 ? "" : "s")}, {(standing == 0 ? "none of which stands" : $"{Figure.Count(standing)} of which still stand{(standing == 1 ? "s" : "")}")} at the end of the period.");
        yield return new RecordTable(Columns, [.. history.Alarms.TakeLast(MostRows).Select(alarm => (IReadOnlyList<string>)
        [
            alarm.Raised is { } raised ? RecordDates.Minute(raised) : "before the period",
            alarm.Ended is not { } ended ? "stands" : RecordDates.Minute(ended) + (alarm.Restarted ? " (the program began anew)" : ""),
            Names.Of(alarm.Kind),
            alarm.Words,
        ])]);
        if (history.Alarms.Count > MostRows)
        {
            yield return new RecordText($"The table holds the last {Figure.Count(MostRows)}.", RecordTextKind.Detail);
        }

        if (history.Load is { } load)
        {
            yield return new RecordText(Load(load));
            yield return new RecordText(Criteria, RecordTextKind.Detail);
        }
    }

    /// <summary>Says what the alarms asked of people.</summary>
    private static string Load(AlarmLoad load) => string.Join(' ', new[]
    {
        $"Announced {Times(load.Announced)}, {Figure.Of(load.PerDay, 1)} a day.",
        load.Chattering.Count == 0 ? "None chattered." : $"Chattered: {string.Join(", ", load.Chattering.Select(one => $"{one.Id} ({Figure.Of(60 * one.IndexPerSecond, 1)} a minute)"))}.",
        load.Stale.Count == 0 ? "None stood for more than a day." : $"Stood for more than a day: {string.Join(", ", load.Stale.Select(one => $"{one.Id} ({Figure.Of(one.Stood.TotalDays, 1)} days)"))}.",
        load.Fleeting == 0 ? null : $"Over within ten seconds: {Figure.Count(load.Fleeting)}.",
        load.Floods.Count == 0 ? "There was no flood." : $"Floods: {Figure.Count(load.Floods.Count)}, {Figure.Of(100 * load.FloodShare, 2)} % of the time.",
    }.OfType<string>());

    private static string Times(int count) => count == 1 ? "once" : $"{Figure.Count(count)} times";
}
