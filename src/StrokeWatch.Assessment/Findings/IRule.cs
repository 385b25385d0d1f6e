using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Findings;

/// <summary>A rule that looks for one cause; silence is an answer.</summary>
internal interface IRule
{
    /// <summary>Gets the id, which never changes.</summary>
    string Id { get; }

    /// <summary>Looks at a report; null where it finds nothing.</summary>
    Finding? Look(AssessmentReport report);
}
