namespace StrokeWatch.Reports.Records;

/// <summary>Makes the record of a machine from all that is known of it; what is missing is said, never left out.</summary>
internal static class RecordBuilder
{
    /// <summary>Makes the document; the same input gives the same document.</summary>
    public static RecordDocument Make(RecordInput input)
    {
        var reading = FinalReading.Of(input);
        var model = input.Feeder.Model is { } named ? $" · model {named}" : "";
        return new()
        {
            Feeder = input.Feeder.Name,
            About = $"Machine record of {RecordDates.Day(input.Now)}, {RecordDates.Minute(input.Now)[^5..]} UTC{model}{(input.Who is { } who ? $" · made by {who}" : "")}",
            Made = input.Now,
            Who = input.Who,
            Reading = reading.Block(),
            Sections =
            [
                MachinePart.Make(input),
                TuningPart.Trials(input),
                TuningPart.Curve(input),
                ReadingPart.Make(input, reading),
                ReadingPart.Budget(input),
                HistoryPart.Make(input),
                FindingsPart.Make(input),
                BaselinePart.Make(input),
                CalibrationPart.Make(input),
                BookPart.Make(input),
                ClosingPart.Cautions,
                ClosingPart.Signature(input),
            ],
        };
    }
}
