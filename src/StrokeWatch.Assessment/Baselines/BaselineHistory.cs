namespace StrokeWatch.Assessment.Baselines;

/// <summary>All baselines a feeder ever had, the latest last; an older one is never lost or changed by a newer.</summary>
public sealed record BaselineHistory
{
    /// <summary>The form this program writes and reads.</summary>
    public const int KnownForm = 1;

    /// <summary>Gets a history without baselines.</summary>
    public static BaselineHistory Empty { get; } = new() { Form = KnownForm, Versions = [] };

    /// <summary>Gets the number of the form, so that a later program knows an older file and an older program refuses a later one.</summary>
    public required int Form { get; init; }

    /// <summary>Gets the versions, numbered from 1 without a gap.</summary>
    public required IReadOnlyList<Baseline> Versions { get; init; }

    /// <summary>Gets the version in force; null where there is none.</summary>
    public Baseline? Current => Versions.Count > 0 ? Versions[^1] : null;

    /// <summary>Adds a version and numbers it.</summary>
    /// <returns>The history with the version as its last.</returns>
    /// <exception cref="ArgumentException">The baseline holds numbers that mean nothing.</exception>
    public BaselineHistory Add(Baseline baseline) => baseline.Fault() is { } fault
        ? throw new ArgumentException($"The baseline cannot be kept: {fault}.", nameof(baseline))
        : this with { Versions = [.. Versions, baseline with { Version = Versions.Count + 1 }] };

    /// <summary>Gives an earlier version as it would be added anew; null where there is none of that number.</summary>
    /// <param name="version">Its number.</param>
    /// <param name="made">When it is taken again.</param>
    /// <param name="note">Why, in a person's words; null where none were given.</param>
    public Baseline? Again(int version, DateTimeOffset made, string? note) => version < 1 || version > Versions.Count ? null
        : Versions[version - 1] with { Made = made, Note = $"version {version} again{(note is null ? "" : ": " + note)}" };

    /// <summary>Says in one line what is wrong with it; null where nothing is.</summary>
    internal string? Fault()
    {
        if (Form != KnownForm)
        {
            return $"`form` is {Form}; this program reads form {KnownForm}";
        }

        for (var i = 0; i < Versions.Count; i++)
        {
            if (Versions[i].Version != i + 1)
            {
                return $"`version` is {Versions[i].Version} where {i + 1} was expected: versions are numbered from 1 without a gap";
            }

            if (Versions[i].Fault() is { } fault)
            {
                return $"version {i + 1}: {fault}";
            }
        }

        return null;
    }
}
