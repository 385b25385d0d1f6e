namespace StrokeWatch.Reports.Records;

/// <summary>A paragraph.</summary>
/// <param name="Words">Its words.</param>
/// <param name="Kind">What it is for.</param>
internal sealed record RecordText(string Words, RecordTextKind Kind = RecordTextKind.Plain) : RecordBlock;
