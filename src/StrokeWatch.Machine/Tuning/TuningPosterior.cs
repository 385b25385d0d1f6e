namespace StrokeWatch.Machine.Tuning;

/// <summary>The machines that the trials may have come from, each as probable as the next.</summary>
public sealed record TuningPosterior
{
    /// <summary>Gets the model.</summary>
    public required FeederModel Model { get; init; }

    /// <summary>Gets the priors.</summary>
    public required TuningPriors Priors { get; init; }

    /// <summary>Gets the trials.</summary>
    public required IReadOnlyList<TuningTrial> Trials { get; init; }

    /// <summary>Gets the machines, drawn by their weight.</summary>
    public required IReadOnlyList<FeederState> Samples { get; init; }

    /// <summary>Gets the most probable machine.</summary>
    public required FeederState Best { get; init; }

    /// <summary>Gets how many unweighted draws the weighted ones are worth (Kish): 1/Σw².</summary>
    public required double EffectiveSamples { get; init; }

    /// <summary>Gets the sum of the squared residuals at the most probable machine, priors counted.</summary>
    public required double Misfit { get; init; }

    /// <summary>Gets how many trial readings went into it.</summary>
    public required int Readings { get; init; }

    /// <summary>Gets whether a free vibration was read in any trial.</summary>
    public bool HasNatural => Trials.Any(trial => trial.NaturalHz is not null);

    /// <summary>Gives a quantity's quantile over the machines, 0 to 1.</summary>
    public double Quantile(Func<FeederState, double> quantity, double share) => Quantiles.Of([.. Samples.Select(quantity)], share);

    /// <summary>Gives a quantity's mean over the machines; of a statement's truth (1 or 0) its probability.</summary>
    public double Mean(Func<FeederState, double> quantity) => Samples.Average(quantity);
}
