namespace StrokeWatch.Samples.Captures;

/// <summary>What the whole time column of a capture shows.</summary>
public sealed record TimestampStatistics
{
    /// <summary>Gets the seconds from the first row to the last, the time between backward jumps added up.</summary>
    public required double SpanSeconds { get; init; }

    /// <summary>Gets the mean step in seconds within stretches without gaps.</summary>
    public required double StepSeconds { get; init; }

    /// <summary>Gets the rms distance of the timestamps from an even spacing, in seconds; rounding is part of it.</summary>
    public required double JitterRmsSeconds { get; init; }

    /// <summary>Gets the step to which the timestamps are rounded, in seconds; 0 where none is seen.</summary>
    public required double ResolutionSeconds { get; init; }

    /// <summary>Gets whether several rows share each time as a rule, as where a host reads a sensor's buffer at once.</summary>
    public bool Shared { get; init; }

    /// <summary>Gets the relative standard uncertainty of the step by the scatter of the times, as if each stretch were known by its two ends alone: the scatter need not be free of trend.</summary>
    public double StepUncertainty { get; init; }

    /// <summary>Gets the rms distance from even spacing that rounding alone makes, in seconds: a rectangle of one step of rounding.</summary>
    public double RoundingRmsSeconds => ResolutionSeconds / Math.Sqrt(12);

    /// <summary>Gets whether the times are evenly spaced for every purpose: within a thousandth of the step.</summary>
    public bool Even => !Shared && JitterRmsSeconds <= 1e-3 * StepSeconds;

    /// <summary>Gets how many rows carry the time of the row before.</summary>
    public required long Repeats { get; init; }

    /// <summary>Gets how many rows carry a time before that of the row before.</summary>
    public required long BackwardSteps { get; init; }

    /// <summary>Gets the gaps found.</summary>
    public required long Gaps { get; init; }

    /// <summary>Gets the samples missing in them.</summary>
    public required long MissingSamples { get; init; }

    /// <summary>Gets the longest gap in seconds, from sample to sample; 0 where there is none.</summary>
    public required double LargestGapSeconds { get; init; }
}
