using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Machine.Tuning;

/// <summary>What the trials say of the feeder, and what to do next.</summary>
public sealed record TuningAdvice
{
    /// <summary>Gets the side of the tuning curve with the rear stack that is in now.</summary>
    public required CurveSide Side { get; init; }

    /// <summary>Gets the probability of the normal side.</summary>
    public required double NormalProbability { get; init; }

    /// <summary>Gets the natural frequency in Hz with the stack that is in now: of the free decay, measured or inferred; null where the trials do not tell it.</summary>
    public double? NaturalHz { get; init; }

    /// <summary>Gets why there is no natural frequency; null where there is one.</summary>
    public string? NaturalReason { get; init; }

    /// <summary>Gets natural over drive frequency; null where the natural frequency is.</summary>
    public double? TuningRatio { get; init; }

    /// <summary>Gets what to do.</summary>
    public required TuningAction Action { get; init; }

    /// <summary>Gets the stack that the action is about: the one to put in, the nearest where none fits, else the one that is in now.</summary>
    public required StackPrediction Choice { get; init; }

    /// <summary>Gets the stack that is in now, as it would be read again.</summary>
    public required StackPrediction Present { get; init; }

    /// <summary>Gets the next best stacks, best first.</summary>
    public required IReadOnlyList<StackPrediction> Alternatives { get; init; }

    /// <summary>Gets how many stacks were gone through.</summary>
    public required long Examined { get; init; }

    /// <summary>Gets the probability that any stack of the leaves at hand fits.</summary>
    public required double AnyFits { get; init; }

    /// <summary>Gets the weight in kg that the tray may take on before the top of the tuning curve is reached; negative where it has passed it; null where the trials do not tell.</summary>
    public double? KilogramsToResonance { get; init; }

    /// <summary>Gets the last trial's rear stack.</summary>
    public required IReadOnlyList<LeafLayer> Installed { get; init; }

    /// <summary>Gets the reasons, a sentence each.</summary>
    public required IReadOnlyList<string> Because { get; init; }

    /// <summary>Gets what to mind, a sentence each.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}
