namespace StrokeWatch.Reports.Records;

/// <summary>A dated record of a machine, before anything writes it: both writers say what stands here and nothing else.</summary>
internal sealed record RecordDocument
{
    /// <summary>Gets the feeder's name.</summary>
    public required string Feeder { get; init; }

    /// <summary>Gets what stands below it: date, model, who.</summary>
    public required string About { get; init; }

    /// <summary>Gets when the record was made.</summary>
    public required DateTimeOffset Made { get; init; }

    /// <summary>Gets who made it; null where nobody was named.</summary>
    public string? Who { get; init; }

    /// <summary>Gets the reading at its head.</summary>
    public required RecordReading Reading { get; init; }

    /// <summary>Gets the sections.</summary>
    public required IReadOnlyList<RecordSection> Sections { get; init; }

    /// <summary>Gets the document's title.</summary>
    public string Title => $"{Feeder}: machine record of {RecordDates.Day(Made)}";
}
