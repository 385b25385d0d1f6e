namespace StrokeWatch.Assessment.Diagnosis.Checks;

/// <summary>A check from practice that a person makes at the machine.</summary>
/// <param name="Id">Its id, which never changes.</param>
/// <param name="Title">What is looked for.</param>
/// <param name="LockOut">Whether hands go near the machine: isolated, locked out and verified first.</param>
/// <param name="How">How to do it, a sentence or two each.</param>
/// <param name="Choices">What may be found.</param>
public sealed record GuidedCheck(string Id, string Title, bool LockOut, IReadOnlyList<string> How, IReadOnlyList<CheckChoice> Choices)
{
    /// <summary>Finds a choice by its id; null for none.</summary>
    public CheckChoice? Find(string choice) => Choices.FirstOrDefault(other => other.Id == choice);
}
