using MathNet.Numerics.LinearAlgebra;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Machine.Tuning;

/// <summary>
/// Fits a feeder's model to trials by Bayes' rule: the most probable machines by least squares from several starts, on both sides of the tuning curve, then machines drawn
/// about them and from the priors, each weighed by what the trials and the priors say of it.
/// </summary>
/// <remarks>
/// Laplace's approximation gives centre and spread of where is drawn, importance weights make it exact (Owen and Zhou, J. Amer. Statist. Assoc. 95 (2000) 135-143, the
/// mixture with a defensive share of the prior; from memory). Seeded, and without a clock: the same trials give the same machines.
/// </remarks>
public static class TuningFit
{
    /// <summary>How many machines stand for what is known.</summary>
    public const int Machines = 2000;

    private const int Draws = 6000;
    private const int Rounds = 4;
    private const double EnoughEffective = 1200;
    private const double PriorShare = 0.3;
    private const double FarBehind = 30;

    /// <summary>In the order in which they are drawn: a frequency needs the damping, a stroke both.</summary>
    private static readonly int[] Conditional = [TuningProblem.Damping, TuningProblem.Efficiency, TuningProblem.Force];

    private static readonly double[] Ratios = [0.9, 0.96, 1.0, 1.04, 1.1];

    /// <summary>Fits.</summary>
    /// <param name="feeder">The feeder; its file must describe springs and masses.</param>
    /// <param name="trials">The trials in order of time.</param>
    /// <param name="priors">What is taken for granted; the usual where null.</param>
    /// <param name="seed">Seed of the draws.</param>
    public static TuningPosterior Run(FeederDescription feeder, IReadOnlyList<TuningTrial> trials, TuningPriors? priors = null, int seed = 1)
    {
        ArgumentNullException.ThrowIfNull(trials);
        priors ??= new TuningPriors();
        var model = new FeederModel(feeder);
        var problem = new TuningProblem(model, priors, trials);
        var random = new Random(seed);
        var bells = new BellMixture(problem.Coordinates);
        var best = Modes(problem, bells);
        var drawn = new List<double[]>();
        double[] weights = [];
        for (var round = 0; round < Rounds; round++)
        {
            drawn = DrawAll(problem, bells, random);
            weights = Weigh(problem, bells, drawn);
            if (Effective(weights) >= EnoughEffective)
            {
                break;
            }

            Refine(problem, model, bells, drawn, weights, trials);
        }

        return new()
        {
            Model = model,
            Priors = priors,
            Trials = trials,
            Samples = Resample(problem, drawn, weights, random),
            Best = problem.State(problem.FromTrial(best.Parameters)),
            EffectiveSamples = Effective(weights),
            Misfit = best.SumOfSquares,
            Readings = problem.Readings,
        };
    }

    /// <summary>Finds the most probable machines, puts a bell about each, and gives the best.</summary>
    private static LeastSquaresResult Modes(TuningProblem problem, BellMixture bells)
    {
        var found = new List<LeastSquaresResult>();
        foreach (var efficiency in Ratios.Select(problem.EfficiencyFor).Append(0))
        {
            var start = new double[problem.Coordinates];
            start[0] = efficiency;
            start[TuningProblem.Force] = problem.Given(start, TuningProblem.Force).Mean;
            var fit = LeastSquares.Fit(y => problem.Residuals(problem.FromTrial(y)), problem.ToTrial(start), 60);
            if (double.IsFinite(fit.SumOfSquares) && !found.Exists(other => Near(other, fit)))
            {
                found.Add(fit);
            }
        }

        var best = found.MinBy(fit => fit.SumOfSquares)!;
        foreach (var fit in found.Where(fit => fit.SumOfSquares < best.SumOfSquares + FarBehind))
        {
            bells.Add(fit.Parameters, Matrix<double>.Build.DenseOfArray(fit.UnitCovariance()));
        }

        return best;
    }

    private static bool Near(LeastSquaresResult one, LeastSquaresResult other) => one.Parameters.Zip(other.Parameters).All(pair => Math.Abs(pair.First - pair.Second) < 0.05);

    private static List<double[]> DrawAll(TuningProblem problem, BellMixture bells, Random random)
    {
        var drawn = new List<double[]>(Draws);
        var prior = bells.Count == 0 ? Draws : (int)(PriorShare * Draws);
        for (var n = 0; n < Draws; n++)
        {
            if (n >= prior)
            {
                drawn.Add(problem.FromTrial(bells.Draw(n % bells.Count, random)));
                continue;
            }

            var z = new double[problem.Coordinates];
            for (var i = 0; i < z.Length; i++)
            {
                z[i] = BellMixture.Normal(random);
            }

            foreach (var coordinate in Conditional)
            {
                var (mean, deviation) = problem.Given(z, coordinate);
                z[coordinate] = mean + (deviation * z[coordinate]);
            }

            drawn.Add(z);
        }

        return drawn;
    }

    private static double[] Weigh(TuningProblem problem, BellMixture bells, List<double[]> drawn)
    {
        var logs = new double[drawn.Count];
        var share = bells.Count == 0 ? 1 : PriorShare;
        for (var n = 0; n < drawn.Count; n++)
        {
            var z = drawn[n];
            var square = z.Sum(value => value * value);
            var scale = 0.5 * z.Length * Math.Log(2 * Math.PI);
            foreach (var coordinate in Conditional)
            {
                var (mean, deviation) = problem.Given(z, coordinate);
                square += Math.Pow((z[coordinate] - mean) / deviation, 2) - (z[coordinate] * z[coordinate]);
                scale += Math.Log(deviation);
            }

            var density = (share * Math.Exp((-0.5 * square) - scale)) + ((1 - share) * bells.Density(problem.ToTrial(z)));
            logs[n] = (-0.5 * problem.Residuals(z).Sum(r => r * r)) - Math.Log(density + 1e-300);
        }

        var most = logs.Max();
        var weights = logs.Select(log => double.IsNaN(log) ? 0 : Math.Exp(log - most)).ToArray();
        var sum = weights.Sum();
        return [.. weights.Select(weight => weight / sum)];
    }

    private static double Effective(double[] weights) => 1 / weights.Sum(weight => weight * weight);

    /// <summary>Puts a bell about the weighted machines of each side of the tuning curve.</summary>
    private static void Refine(TuningProblem problem, FeederModel model, BellMixture bells, List<double[]> drawn, double[] weights, IReadOnlyList<TuningTrial> trials)
    {
        var rear = trials.Count > 0 ? trials[^1].Rear : model.Feeder.Springs!.Rear;
        foreach (var side in drawn.Index().GroupBy(pair =>
        {
            var state = problem.State(pair.Item);
            return FeederModel.RunningHz(state, model.Stiffness(state, rear, state.Clamping), trials.Count > 0 ? trials[^1].TrayChangeKilograms : 0) > model.DriveHz;
        }).ToList())
        {
            var share = side.Sum(pair => weights[pair.Index]);
            if (share < 0.005)
            {
                continue;
            }

            var there = side.Select(pair => (Weight: weights[pair.Index] / share, At: Vector<double>.Build.DenseOfArray(problem.ToTrial(pair.Item)))).Where(pair => pair.Weight > 1e-9).ToList();
            var centre = there.Select(pair => pair.Weight * pair.At).Aggregate((sum, next) => sum + next);
            var covariance = there.Select(pair => pair.Weight * (pair.At - centre).OuterProduct(pair.At - centre)).Aggregate((sum, next) => sum + next);

            // A few heavy draws understate the spread; a tenth of it, and a little of the prior's, is put on top.
            bells.Add(centre.ToArray(), (1.2 * covariance) + (1e-4 * Matrix<double>.Build.DenseIdentity(centre.Count)));
        }
    }

    /// <summary>Draws machines by weight at even steps of the summed weight (systematic resampling).</summary>
    private static List<FeederState> Resample(TuningProblem problem, List<double[]> drawn, double[] weights, Random random)
    {
        var chosen = new List<FeederState>(Machines);
        var offset = random.NextDouble();
        double sum = 0;
        for (int n = 0; n < drawn.Count && chosen.Count < Machines; n++)
        {
            sum += weights[n] * Machines;
            while (chosen.Count < Machines && chosen.Count + offset < sum)
            {
                chosen.Add(problem.State(drawn[n]));
            }
        }

        while (chosen.Count < Machines)
        {
            chosen.Add(chosen[^1]);
        }

        return chosen;
    }
}
