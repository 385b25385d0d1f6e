namespace StrokeWatch.Assessment.Stretches;

/// <summary>Why a stretch of running ended.</summary>
public enum StretchEnd
{
    /// <summary>It had lasted as long as a stretch may.</summary>
    Full,

    /// <summary>The feeder was stopped.</summary>
    Stop,

    /// <summary>The sensor was away for a while.</summary>
    Gap,

    /// <summary>The program ended.</summary>
    Over,
}
