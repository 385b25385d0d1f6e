using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Session;

/// <summary>Where a session stands: the step, and what must be known beside it and the trials to go on.</summary>
internal sealed record SessionState
{
    /// <summary>Gets the id of the step whose question is to be answered next.</summary>
    public required string Step { get; init; }

    /// <summary>Gets who works on it.</summary>
    public string? Who { get; init; }

    /// <summary>Gets the rear stack that is in.</summary>
    public required IReadOnlyList<LeafLayer> Rear { get; init; }

    /// <summary>Gets the rear stack that is to go in; null where none is.</summary>
    public IReadOnlyList<LeafLayer>? Proposed { get; init; }

    /// <summary>Gets by how much the tray is heavier than the feeder file says, in kg.</summary>
    public double TrayChangeKilograms { get; init; }

    /// <summary>Gets the steps that one may go back to, the last one last.</summary>
    public IReadOnlyList<string> Trail { get; init; } = [];

    /// <summary>Gets whether the feeder was locked out and has not been given free since.</summary>
    public bool LockedOut { get; init; }

    /// <summary>Gets the step to go to after the guided checks; null outside of them.</summary>
    public string? ReturnTo { get; init; }

    /// <summary>Gets the guided check that waits for the lock-out; null for none.</summary>
    public string? Check { get; init; }

    /// <summary>Gets the step that waits until it is known that the lock is still on; null for none.</summary>
    public string? Held { get; init; }

    /// <summary>Gets the version of the baseline that was made; null for none.</summary>
    public int? BaselineVersion { get; init; }
}
