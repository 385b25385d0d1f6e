namespace StrokeWatch.Reports.Records;

/// <summary>What a paragraph of a record is for.</summary>
internal enum RecordTextKind
{
    /// <summary>Something that is said.</summary>
    Plain,

    /// <summary>A heading within a section.</summary>
    Heading,

    /// <summary>What is worth knowing beside it: captions, how far something holds.</summary>
    Detail,

    /// <summary>A caution, framed.</summary>
    Caution,
}
