namespace StrokeWatch.Assessment.Trends;

/// <summary>What a feature does.</summary>
public enum TrendState
{
    /// <summary>It is as the baseline says, as far as can be told.</summary>
    Steady,

    /// <summary>It has risen above the baseline.</summary>
    DriftingUp,

    /// <summary>It has fallen below the baseline.</summary>
    DriftingDown,
}
