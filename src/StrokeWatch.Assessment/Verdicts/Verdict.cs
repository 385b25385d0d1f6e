namespace StrokeWatch.Assessment.Verdicts;

/// <summary>Where the stroke lies against the model's band.</summary>
public enum Verdict
{
    /// <summary>Inside the band.</summary>
    InBand,

    /// <summary>Below the band.</summary>
    Low,

    /// <summary>Above the band, below the limit.</summary>
    High,

    /// <summary>Above the over-stroke limit.</summary>
    OverStroke,

    /// <summary>The feeder is not running.</summary>
    Stopped,

    /// <summary>No stroke could be measured.</summary>
    Unmeasurable,
}
