namespace StrokeWatch.Samples.Sources;

/// <summary>What a source answered when it was asked for samples.</summary>
public enum SourceState
{
    /// <summary>The block holds samples.</summary>
    Samples,

    /// <summary>Nothing has come within the source's patience; ask again.</summary>
    Nothing,

    /// <summary>The sensor is gone; ask again, the source goes on trying to reach it.</summary>
    Lost,

    /// <summary>There will be no more samples.</summary>
    End,
}
