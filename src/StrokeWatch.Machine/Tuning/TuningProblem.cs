using StrokeWatch.Machine.Dynamics;

namespace StrokeWatch.Machine.Tuning;

/// <summary>Trials and priors as one least-squares problem: coordinates in units of their prior's spread, residuals in units of their uncertainty.</summary>
/// <remarks>
/// Coordinates: joint efficiency, rear ratio, penetration, tray, body, damping, force, softening, the magnet's damping, the clamps' give, then one a clamping of the rear stack. Trials that follow each other
/// with the same rear stack share a clamping. A natural frequency is a straight line in the logarithm of the efficiency, a damping ratio in that of the damping, a stroke in
/// that of the force: given all other coordinates, what the readings say of these three is a normal distribution. Beside these coordinates stand others in which the
/// first trial's natural frequency and stroke take the places of efficiency and force, so that what is known best lies along the axes; the change between them keeps volumes.
/// </remarks>
internal sealed class TuningProblem
{
    /// <summary>The coordinate of the joints' efficiency.</summary>
    public const int Efficiency = 0;

    /// <summary>The coordinate of the damping.</summary>
    public const int Damping = 5;

    /// <summary>The coordinate of the force.</summary>
    public const int Force = 6;

    private const int Machine = 10;

    private readonly FeederModel model;
    private readonly TuningPriors priors;
    private readonly IReadOnlyList<TuningTrial> trials;
    private readonly FeederState expected;
    private readonly int[] clampings;

    /// <summary>Makes the problem.</summary>
    public TuningProblem(FeederModel model, TuningPriors priors, IReadOnlyList<TuningTrial> trials)
    {
        (this.model, this.priors, this.trials) = (model, priors, trials);
        expected = model.Expected(priors);
        clampings = new int[trials.Count];
        for (var i = 1; i < trials.Count; i++)
        {
            clampings[i] = clampings[i - 1] + (Stacks.Same(trials[i].Rear, trials[i - 1].Rear) ? 0 : 1);
        }

        Coordinates = Machine + (trials.Count == 0 ? 0 : clampings[^1] + 1);
        Readings = trials.Sum(trial => (trial.StrokeMetres is null ? 0 : 1) + (trial.NaturalHz is null ? 0 : 1) + (trial.DampingRatio is null ? 0 : 1));
    }

    /// <summary>Gets the number of coordinates.</summary>
    public int Coordinates { get; }

    /// <summary>Gets the number of readings.</summary>
    public int Readings { get; }

    /// <summary>Gives the machine at some coordinates.</summary>
    public FeederState State(ReadOnlySpan<double> z) => new(
        expected.JointEfficiency * Math.Exp(priors.JointSpread * z[0]),
        expected.RearRatio * Math.Exp(priors.RearSpread * z[1]),
        expected.Penetration * Math.Exp(priors.PenetrationSpread * z[2]),
        expected.TrayKilograms * Math.Exp(priors.TraySpread * z[3]),
        expected.BodyKilograms * Math.Exp(priors.BodySpread * z[4]),
        Math.Min(0.5, expected.DampingRatio * Math.Exp(priors.DampingSpread * z[5])),
        expected.LogForce + (priors.ForceSpread * z[Force]),
        expected.Softening * Math.Exp(priors.SofteningSpread * z[7]),
        Math.Min(0.5, expected.MagnetDamping * Math.Exp(priors.MagnetDampingSpread * z[8])))
    {
        Give = expected.Give * Math.Exp(priors.GiveSpread * z[9]),
        Clamping = z.Length > Machine ? priors.ClampingSpread * z[^1] : 0,
    };

    /// <summary>Gives all residuals: of each reading, then of each coordinate's prior.</summary>
    public double[] Residuals(double[] z)
    {
        var residuals = new double[Readings + Coordinates];
        var next = 0;
        foreach (var (residual, _, _) in Data(z))
        {
            residuals[next++] = residual;
        }

        z.CopyTo(residuals, next);
        return residuals;
    }

    /// <summary>Gives what the readings and the prior say of efficiency, damping or force, all other coordinates given: mean and deviation.</summary>
    public (double Mean, double Deviation) Given(double[] z, int coordinate)
    {
        double precision = 1, pull = 0;
        foreach (var (residual, slope, of) in Data(z))
        {
            if (of == coordinate)
            {
                precision += slope * slope;
                pull += slope * ((slope * z[coordinate]) - residual);
            }
        }

        return (pull / precision, 1 / Math.Sqrt(precision));
    }

    /// <summary>Gives the coordinates from those that hold the first trial's frequency and stroke.</summary>
    public double[] FromTrial(double[] y) => Shifted(y, 1);

    /// <summary>Gives those that hold the first trial's frequency and stroke from the coordinates.</summary>
    public double[] ToTrial(double[] z) => Shifted(z, -1);

    /// <summary>Gives the efficiency's coordinate at which the first trial's machine runs at a ratio of natural to drive frequency.</summary>
    public double EfficiencyFor(double ratio)
    {
        var rear = trials.Count > 0 ? trials[0].Rear : model.Feeder.Springs!.Rear;
        var change = trials.Count > 0 ? trials[0].TrayChangeKilograms : 0;
        var hertz = FeederModel.RunningHz(expected, model.Stiffness(expected, rear, 0), change);
        return Math.Clamp(2 * Math.Log(ratio * model.DriveHz / hertz) / priors.JointSpread, -8, 8);
    }

    /// <summary>
    /// Gives one kind of coordinates from the other. The first trial's frequency is efficiency times what the other coordinates make of it, its stroke force times what
    /// they make of that: in logarithms each is a shift.
    /// </summary>
    private double[] Shifted(double[] from, int direction)
    {
        double[] to = [.. from];
        if (trials.Count == 0)
        {
            return to;
        }

        var first = trials[0];
        double Clamping(double[] at) => priors.ClampingSpread * at[Machine + clampings[0]];
        double[] bare = [.. from];
        bare[Efficiency] = bare[Force] = 0;
        var state = State(bare);
        var hertz = Math.Log(TwoMass.NaturalFrequencyHz(model.Stiffness(state, first.Rear, Clamping(bare)), FeederModel.Reduced(state, first.TrayChangeKilograms)) / model.DriveHz);
        to[Efficiency] = from[Efficiency] - (direction * 2 * hertz / priors.JointSpread);
        bare[Efficiency] = direction > 0 ? to[Efficiency] : from[Efficiency];
        state = State(bare);
        var stroke = model.LogStroke(state, model.Stiffness(state, first.Rear, Clamping(bare)), first.TrayChangeKilograms, first.VoltageRatio) - Math.Log(model.Feeder.Band.High.Metres);
        to[Force] = from[Force] - (direction * stroke / priors.ForceSpread);
        return to;
    }

    /// <summary>Gives each reading's residual, with its derivative by the coordinate in which it is a straight line.</summary>
    private IEnumerable<(double Residual, double Slope, int Coordinate)> Data(double[] z)
    {
        var state = State(z);
        for (var i = 0; i < trials.Count; i++)
        {
            var trial = trials[i];
            var stiffness = model.Stiffness(state, trial.Rear, priors.ClampingSpread * z[Machine + clampings[i]]);
            if (trial.StrokeMetres is { } stroke)
            {
                var spread = double.Hypot(trial.StrokeSpread, priors.StrokeSpread);
                yield return ((model.LogStroke(state, stiffness, trial.TrayChangeKilograms, trial.VoltageRatio) - Math.Log(stroke)) / spread, priors.ForceSpread / spread, Force);
            }

            if (trial.NaturalHz is { } natural)
            {
                var spread = double.Hypot(trial.NaturalSpreadHz / natural ?? 0, priors.NaturalSpread);
                yield return (Math.Log(FeederModel.FreeHz(state, stiffness, trial.TrayChangeKilograms) / natural) / spread, 0.5 * priors.JointSpread / spread, Efficiency);
            }

            if (trial.DampingRatio is { } damping)
            {
                yield return (Math.Log(state.DampingRatio / damping) / priors.DampingReadingSpread, priors.DampingSpread / priors.DampingReadingSpread, Damping);
            }
        }
    }
}
