namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>A cause that a rule looks for: what it does to a machine, and how to find it.</summary>
internal interface ICause
{
    /// <summary>Gets the id, which never changes.</summary>
    string Id { get; }

    /// <summary>Gets what is wrong, in a practitioner's words.</summary>
    string Words { get; }

    /// <summary>Gets the physics in a sentence.</summary>
    string Physics { get; }

    /// <summary>Gets what it does to symptoms; those not named it leaves as they were. Several patterns where it may show in different ways.</summary>
    IReadOnlyList<IReadOnlyDictionary<string, Change>> Patterns { get; }

    /// <summary>Gets what to check, the quickest safe check first.</summary>
    IReadOnlyList<string> CheckFirst { get; }

    /// <summary>Gets what would confirm or refute it.</summary>
    string Confirm { get; }
}
