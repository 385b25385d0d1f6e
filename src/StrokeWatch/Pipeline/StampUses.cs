using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Tells what was made of a capture's time stamps, in names and in words.</summary>
internal static class StampUses
{
    /// <summary>Tells what was made of them.</summary>
    public static StampUse Of(SourceInfo source, AssessmentReport report)
    {
        var (timed, all) = (0, 0);
        foreach (var window in report.Windows)
        {
            all += window.Reading.FrequencyHz is null ? 0 : 1;
            timed += window.Reading is { Timed: true, FrequencyHz: not null } ? 1 : 0;
        }

        return source.TimeStamps is not { } stamps ? StampUse.None
            : 2 * timed > all ? StampUse.Used
            : stamps.Even ? StampUse.Even
            : StampUse.Rounding;
    }

    /// <summary>Gives the name that the JSON document uses.</summary>
    public static string Name(StampUse use) => use switch
    {
        StampUse.Used => "used",
        StampUse.Even => "even",
        StampUse.Rounding => "rounding",
        _ => "none",
    };

    /// <summary>Gives a sentence for a person; null where there is nothing to say.</summary>
    public static string? Words(StampUse use) => use switch
    {
        StampUse.Used => "spaced unevenly and used as they are: the signal follows them, or does not contradict them",
        StampUse.Rounding => "samples taken as evenly spaced: what the stamps differ from that is rounding or a late host, the signal does not follow them",
        _ => null,
    };
}
