using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Benchmarks.Tuning;

/// <summary>How one way of tuning went on one feeder.</summary>
internal sealed class TuningSession
{
    /// <summary>More spring changes than this nobody makes.</summary>
    public const int MostChanges = 8;

    /// <summary>The relative standard deviation of a rear stack's stiffness from clamping to clamping.</summary>
    public const double Scatter = 0.005;

    private readonly StudyFeeder feeder;
    private readonly Random random;
    private double clamping;

    private TuningSession(StudyFeeder feeder, int seed) => (this.feeder, random) = (feeder, new Random(seed));

    /// <summary>Gets the spring changes made.</summary>
    public int Changes { get; private set; }

    /// <summary>Gets whether the reading lies in the band on the normal side at the end.</summary>
    public bool Reached { get; private set; }

    /// <summary>Gets whether the true stroke exceeded the limit after any change.</summary>
    public bool OverStroke { get; private set; }

    /// <summary>Gets the readings after a change, and how many of them lay in their predicted 95 % range, below and above it.</summary>
    public (int Within, int Below, int Above) Ranges { get; private set; }

    /// <summary>Gets whether the first side said with a coast-down was right; null where none was read.</summary>
    public CurveSide? SideSaid { get; private set; }

    /// <summary>Gets whether <see cref="SideSaid"/> is the true one.</summary>
    public bool SideRight { get; private set; }

    /// <summary>Gets whether the first advice without a coast-down was to measure first.</summary>
    public bool AskedFirst { get; private set; }

    /// <summary>Gets the last action advised.</summary>
    public TuningAction LastAction { get; private set; }

    /// <summary>Tunes by advice; a coast-down is read with every trial, or only where it is asked for.</summary>
    public static TuningSession ByAdvice(StudyFeeder feeder, int seed, bool coastDowns, TuningPriors? priors = null)
    {
        var session = new TuningSession(feeder, seed);
        var trials = new List<TuningTrial>();
        var rear = feeder.Found;
        trials.Add(session.Measure(rear, coastDowns));
        while (true)
        {
            var advice = TuningAdvisor.Advise(TuningFit.Run(feeder.Feeder, trials, priors));
            session.LastAction = advice.Action;
            if (trials[^1].NaturalHz is not null && session.SideSaid is null)
            {
                session.SideSaid = advice.Side;
                session.SideRight = advice.Side == (feeder.Normal(rear, session.clamping) ? CurveSide.Normal : CurveSide.Reverse);
            }

            if (advice.Action == TuningAction.MeasureFirst && trials[^1].NaturalHz is null)
            {
                session.AskedFirst |= trials.Count == 1;
                trials[^1] = session.WithFree(trials[^1]);
                coastDowns = true;
                continue;
            }

            if (advice.Action is not (TuningAction.ChangeRearStack or TuningAction.AddStiffnessOrLightenTray) || session.Changes == MostChanges || Stacks.Same(advice.Choice.Rear, rear))
            {
                session.Reached = advice.Action == TuningAction.None && feeder.Normal(rear, session.clamping);
                return session;
            }

            rear = advice.Choice.Rear;
            session.Change();
            trials.Add(session.Measure(rear, coastDowns));
            var (within, below, above) = session.Ranges;
            var read = trials[^1].StrokeMetres!.Value;
            session.Ranges = read < advice.Choice.Low ? (within, below + 1, above) : read > advice.Choice.High ? (within, below, above + 1) : (within + 1, below, above);
        }
    }

    /// <summary>Tunes by the rule of thumb: one leaf less where the stroke is low, one more where it is high; where that goes the wrong way, the other way round.</summary>
    public static TuningSession ByThumb(StudyFeeder feeder, int seed)
    {
        var session = new TuningSession(feeder, seed);
        var (springs, band) = (feeder.Feeder.Springs!, feeder.Feeder.Band);
        var thickness = springs.Rear[0].ThicknessMetres;
        var rear = feeder.Found;
        var stroke = session.Measure(rear, false).StrokeMetres!.Value;
        var normal = true;
        while (true)
        {
            if (stroke >= band.Low.Metres && stroke <= band.High.Metres && normal)
            {
                session.Reached = feeder.Normal(rear, session.clamping);
                return session;
            }

            // On the reverse side more springs go in until the stroke falls with them.
            var add = stroke > band.High.Metres || !normal;
            var other = rear.FirstOrDefault(layer => Stacks.Count([layer], thickness) == 0);
            var next = add ? Stacks.Tidy([.. rear, new(thickness, 1)])
                : Stacks.Count(rear, thickness) > 0 || other is null ? [.. rear.Select(layer => Stacks.Count([layer], thickness) > 0 ? layer with { Count = layer.Count - 1 } : layer).Where(layer => layer.Count > 0)]
                : [.. rear.Select(layer => layer == other ? layer with { Count = layer.Count - 1 } : layer).Where(layer => layer.Count > 0)];
            if (session.Changes == MostChanges || next.Count == 0 || next.Sum(layer => layer.Count) > springs.MaxRearLeaves)
            {
                return session;
            }

            session.Change();
            var after = session.Measure(next, false).StrokeMetres!.Value;
            normal = add ? after < stroke : after > stroke;
            (rear, stroke) = (next, after);
        }
    }

    private void Change()
    {
        Changes++;
        clamping = Scatter * Strikes.Draw.Normal(random);
    }

    private TuningTrial Measure(IReadOnlyList<LeafLayer> rear, bool free)
    {
        var stroke = feeder.Stroke(rear, clamping);
        OverStroke |= Changes > 0 && stroke > feeder.Feeder.Band.Limit.Metres;
        var trial = new TuningTrial { Rear = rear, StrokeMetres = stroke * feeder.Gain * (1 + (0.004 * Strikes.Draw.Normal(random))), StrokeSpread = 0.004 };
        return free ? WithFree(trial) : trial;
    }

    private TuningTrial WithFree(TuningTrial trial)
    {
        var (hertz, damping) = feeder.Free(trial.Rear, clamping);
        return trial with { NaturalHz = hertz * (1 + (0.001 * Strikes.Draw.Normal(random))), DampingRatio = damping * (1 + (0.08 * Strikes.Draw.Normal(random))) };
    }
}
