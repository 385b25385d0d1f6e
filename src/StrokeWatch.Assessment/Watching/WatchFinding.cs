using System.Globalization;

namespace StrokeWatch.Assessment.Watching;

/// <summary>What has become of a machine that is watched, and how to get hold of it.</summary>
/// <param name="Id">The cause's id, or <see cref="Unexplained"/>.</param>
/// <param name="Confidence">The cause's share of the probability, 0 to 1; null where no cause is named.</param>
/// <param name="Words">What is wrong.</param>
/// <param name="Because">The evidence, in sentences with numbers and dates.</param>
/// <param name="CheckFirst">What to check, the quickest safe check first.</param>
/// <param name="Confirm">What would confirm or refute it; null where no cause is named.</param>
/// <param name="TellApart">With which other cause it can be confused, and what would tell; null where it stands alone.</param>
public sealed record WatchFinding(
    string Id, double? Confidence, string Words, IReadOnlyList<string> Because, IReadOnlyList<string> CheckFirst, string? Confirm, string? TellApart)
{
    /// <summary>The id of a change that no cause explains well enough to be named alone.</summary>
    public const string Unexplained = "change-unexplained";

    /// <summary>Gives what an operator is told when it comes up.</summary>
    public string AlarmWords()
    {
        var what = Confidence is { } share
            ? string.Create(CultureInfo.InvariantCulture, $"The machine has changed: {Words.TrimEnd('.')} (confidence {100 * share:0} %).")
            : Words;
        return $"{what} {Because[0]} Check first: {CheckFirst[0]}";
    }
}
