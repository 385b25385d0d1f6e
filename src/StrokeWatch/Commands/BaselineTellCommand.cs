using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;

namespace StrokeWatch.Commands;

/// <summary>The command <c>baseline tell</c>: a baseline that a person knows, as at commissioning.</summary>
internal sealed class BaselineTellCommand
{
    /// <summary>Gets the feeder file.</summary>
    public required string FeederFile { get; init; }

    /// <summary>Gets the features as the user wrote them.</summary>
    public required IReadOnlyList<string> Features { get; init; }

    /// <summary>Gets the file of baselines, if given.</summary>
    public string? Target { get; init; }

    /// <summary>Gets why the version is made, if given.</summary>
    public string? Note { get; init; }

    /// <summary>Runs.</summary>
    public int Run(Surroundings surroundings)
    {
        if (BaselineOutcome.Feeder(FeederFile, surroundings) is null)
        {
            return CommandLine.Bad;
        }

        if (ToldFeatures.Read(Features, out var wrong) is not { } told)
        {
            surroundings.Error.WriteLine($"strokewatch baseline tell: --feature {wrong}");
            return CommandLine.Bad;
        }

        var baseline = new Baseline { Origin = BaselineOrigin.Told, Made = surroundings.Time.GetUtcNow(), Note = Note, Features = told };
        return BaselineOutcome.Add(Target ?? BaselineFile.Beside(FeederFile), baseline, surroundings) ? CommandLine.Well : CommandLine.Bad;
    }
}
