namespace StrokeWatch.Reports.Records;

/// <summary>One part of a section of a record; the writers know every kind.</summary>
internal abstract record RecordBlock;
