using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Reports.Sheets;

/// <summary>The machine that a sheet is about: fitted to trials, or what the feeder file and usual figures say of it.</summary>
internal sealed class SheetInput
{
    /// <summary>Makes it; without trials the force is such that the file's rear stack makes the middle of the band.</summary>
    public SheetInput(FeederDescription feeder, IReadOnlyList<TuningTrial> trials)
    {
        Feeder = feeder;
        Trials = trials;
        Model = new FeederModel(feeder);
        Posterior = trials.Count > 0 ? TuningFit.Run(feeder, trials) : null;
        State = Posterior?.Best ?? Model.Expected(new TuningPriors());
        Rear = trials.Count > 0 ? trials[^1].Rear : feeder.Springs!.Rear;
        TrayChange = trials.Count > 0 ? trials[^1].TrayChangeKilograms : 0;
        From = trials.Count > 0
            ? string.Create(CultureInfo.InvariantCulture, $"the feeder file and {trials.Count} trial{(trials.Count == 1 ? "" : "s")}; rear stack {Stacks.Words(Rear)}")
            : $"the feeder file and usual figures alone (joints, damping: common practice, no source), as if its rear stack, {Stacks.Words(Rear)}, made the middle of the band; give --trials for the real machine";
    }

    /// <summary>Gets the feeder.</summary>
    public FeederDescription Feeder { get; }

    /// <summary>Gets the trials.</summary>
    public IReadOnlyList<TuningTrial> Trials { get; }

    /// <summary>Gets the model.</summary>
    public FeederModel Model { get; }

    /// <summary>Gets what the trials say; null without trials.</summary>
    public TuningPosterior? Posterior { get; }

    /// <summary>Gets the most probable machine.</summary>
    public FeederState State { get; }

    /// <summary>Gets the rear stack that is in now.</summary>
    public IReadOnlyList<LeafLayer> Rear { get; }

    /// <summary>Gets how much heavier the tray is than the file says, in kg.</summary>
    public double TrayChange { get; }

    /// <summary>Gets what figures rest on, in words.</summary>
    public string From { get; }

    /// <summary>Gets the stiffness of all springs in N/m as they are clamped now.</summary>
    public double Stiffness => Model.Stiffness(State, Rear, State.Clamping);

    /// <summary>Gets the stroke in metres with the present stack, of the most probable machine.</summary>
    public double Stroke => Math.Exp(Model.LogStroke(State, Stiffness, TrayChange));

    /// <summary>Gives the range that holds a quantity of 95 of 100 machines; null without trials.</summary>
    public (double Low, double High)? Range(Func<FeederState, double> quantity) => Posterior is { } posterior ? (posterior.Quantile(quantity, 0.025), posterior.Quantile(quantity, 0.975)) : null;
}
