namespace StrokeWatch.Assessment.Diagnosis.Checks;

/// <summary>Lets what was found at the machine count: each finding multiplies the causes' shares by how probable it is given each of them (Bayes' rule, findings taken as independent).</summary>
internal static class CheckWeights
{
    /// <summary>A finding speaks for a cause, or against it, where it moves its odds against an unnamed one by this factor.</summary>
    private const double Speaks = 1.5;

    /// <summary>Gives the last finding of each check, in the order of the table; what is not known is passed over.</summary>
    public static IReadOnlyList<CheckChoice> Last(IReadOnlyList<CheckFound> found) =>
    [
        .. CheckTable.All.Select(check => found.Where(answer => answer.Check == check.Id).Select(answer => check.Find(answer.Choice)).OfType<CheckChoice>().LastOrDefault()).OfType<CheckChoice>(),
    ];

    /// <summary>Gives the shares in the light of the findings, the likeliest first.</summary>
    public static IReadOnlyList<CauseShare> Apply(IReadOnlyList<CauseShare> shares, IReadOnlyList<CheckChoice> choices)
    {
        var weighed = shares.Select(share => share with { Share = choices.Aggregate(share.Share, (product, choice) => product * choice.Probability(share.Cause?.Id ?? CheckTable.Healthy)) }).ToList();
        var total = weighed.Sum(share => share.Share);
        return total > 0 ? [.. weighed.Select(share => share with { Share = share.Share / total }).OrderByDescending(share => share.Share)] : shares;
    }

    /// <summary>Says whether a finding speaks for a cause.</summary>
    public static bool SpeaksFor(string cause, CheckChoice choice) => choice.Probability(cause) >= Speaks * choice.Otherwise;

    /// <summary>Gives what the findings say of a cause, in sentences: what speaks for it first.</summary>
    public static IReadOnlyList<string> Sentences(string cause, IReadOnlyList<CheckChoice> choices)
    {
        double Ratio(CheckChoice choice) => choice.Probability(cause) / choice.Otherwise;
        return
        [
            .. choices.Where(choice => SpeaksFor(cause, choice)).OrderByDescending(Ratio).Select(choice => choice.Found),
            .. choices.Where(choice => Ratio(choice) <= 1 / Speaks).OrderBy(Ratio).Select(choice => $"Against it: {char.ToLowerInvariant(choice.Found[0])}{choice.Found[1..]}"),
        ];
    }
}
