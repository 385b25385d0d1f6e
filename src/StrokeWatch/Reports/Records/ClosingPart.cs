using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>The last sections: who and when, the signature, and the cautions.</summary>
internal static class ClosingPart
{
    /// <summary>Makes the section to be signed.</summary>
    public static RecordSection Signature(RecordInput input) => new("Who and when",
    [
        new RecordText(input.Who is null ? "Nobody was named as the one who made this record." : $"Made by {input.Who}."),
        new RecordSignature([("Name", input.Who ?? ""), ("Date", RecordDates.Short(input.Now)), ("Signature", "")]),
        new RecordText("All dates and times in this record are UTC.", RecordTextKind.Detail),
    ]);

    /// <summary>Makes the section of cautions; common practice, no source, but the first, which follows OSHA 29 CFR 1910.147.</summary>
    public static RecordSection Cautions { get; } = new("Cautions",
    [
        new RecordText(ReportWords.Caution, RecordTextKind.Caution),
        new RecordList([.. TuningNames.Cautions.Select(caution => $"{char.ToUpperInvariant(caution[0])}{caution[1..]}.")]),
    ]);
}
