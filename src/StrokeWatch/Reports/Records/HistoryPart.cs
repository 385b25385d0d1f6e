using StrokeWatch.Assessment;
using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>The section on the period: the stroke as the store holds it, and the alarms.</summary>
internal static class HistoryPart
{
    private const int MostRows = 60;

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
    }
}
