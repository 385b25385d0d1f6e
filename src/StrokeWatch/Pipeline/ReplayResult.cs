using StrokeWatch.Assessment.Findings;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>A capture replayed: what it is, what was measured and what was found.</summary>
internal sealed record ReplayResult
{
    /// <summary>Gets the file as the user named it.</summary>
    public required string File { get; init; }

    /// <summary>Gets what the source says of itself.</summary>
    public required SourceInfo Source { get; init; }

    /// <summary>Gets what the source counted.</summary>
    public required SourceCounters Counters { get; init; }

    /// <summary>Gets the rate used, in Hz.</summary>
    public required double RateHz { get; init; }

    /// <summary>Gets the time that the capture spans, in seconds.</summary>
    public required double DurationSeconds { get; init; }

    /// <summary>Gets what was guessed, a sentence each.</summary>
    public required IReadOnlyList<string> Guesses { get; init; }

    /// <summary>Gets what was measured.</summary>
    public required AssessmentReport Report { get; init; }

    /// <summary>Gets what the capture tells of the machine's condition.</summary>
    public required CaptureFeatures Features { get; init; }

    /// <summary>Gets when it was recorded; null where nothing says so.</summary>
    public CaptureDate? Date { get; init; }

    /// <summary>Gets the findings, most confident first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Gets what guided checks found on this feeder, as its machine book holds it; empty where no book was named.</summary>
    public IReadOnlyList<BookCheckAnswer> Checks { get; init; } = [];

    /// <summary>Gets the contributions to the uncertainty that the signal cannot tell.</summary>
    public required StrokeContributions Contributions { get; init; }
}
