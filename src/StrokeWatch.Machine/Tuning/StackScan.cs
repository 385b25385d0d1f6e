using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Springs;

namespace StrokeWatch.Machine.Tuning;

/// <summary>Looks at what stacks would do on each of the machines that the trials may have come from.</summary>
internal sealed class StackScan
{
    private readonly TuningPosterior posterior;
    private readonly StackStock stock;
    private readonly double trayChange;
    private readonly double[][] leaves;
    private readonly double[] front, clamping, noise;
    private readonly bool[] fits;

    /// <summary>Makes the scan: each machine's leaves, and for each one new clamping and one reading.</summary>
    public StackScan(TuningPosterior posterior, StackStock stock, double trayChange, int seed)
    {
        (this.posterior, this.stock, this.trayChange) = (posterior, stock, trayChange);
        var (model, priors, samples) = (posterior.Model, posterior.Priors, posterior.Samples);
        var spread = double.Hypot(posterior.Trials.Count == 0 ? 0.01 : posterior.Trials.Max(trial => trial.StrokeSpread), priors.StrokeSpread);
        var random = new Random(seed);
        leaves = [.. samples.Select(state => stock.Thicknesses.Select(thickness => model.RearLeaf(state, thickness)).ToArray())];
        front = [.. samples.Select(state => model.Front(state))];
        clamping = [.. samples.Select(_ => Math.Exp(priors.ClampingSpread * BellMixture.Normal(random)))];
        noise = [.. samples.Select(_ => spread * BellMixture.Normal(random))];
        fits = new bool[samples.Count];
    }

    /// <summary>Gets the share of machines on which at least one stack looked at lands in the band on the normal side.</summary>
    public double AnyFits => fits.Count(fit => fit) / (double)fits.Length;

    /// <summary>Gives the probabilities of a stack: in the band, over the limit, on the normal side, and by how much (logarithm) it misses the band on average; only every so many-th machine is asked.</summary>
    public (double InBand, double Over, double Normal, double Miss) Look(int[] counts, int every = 1, bool tally = false)
    {
        var band = posterior.Model.Feeder.Band;
        var (low, high, limit) = (Math.Log(band.Low.Metres), Math.Log(band.High.Metres), Math.Log(band.Limit.Metres));
        int inBand = 0, over = 0, normal = 0, asked = 0;
        var miss = 0.0;
        for (var s = 0; s < front.Length; s += every)
        {
            var state = posterior.Samples[s];
            var stiffness = front[s] + (clamping[s] * posterior.Model.RearStack(state, Rear(s, counts)));
            var stroke = posterior.Model.LogStroke(state, stiffness, trayChange);
            var read = stroke + noise[s];
            var right = FeederModel.RunningHz(state, stiffness, trayChange) > posterior.Model.DriveHz;
            asked++;
            inBand += read >= low && read <= high ? 1 : 0;
            over += stroke > limit ? 1 : 0;
            normal += right ? 1 : 0;
            miss += Math.Max(0, Math.Max(low - read, read - high));
            fits[s] |= tally && right && stroke >= low && stroke <= high;
        }

        return (inBand / (double)asked, over / (double)asked, normal / (double)asked, miss / asked);
    }

    /// <summary>Gives everything about a stack.</summary>
    /// <param name="rear">The stack.</param>
    /// <param name="before">The stack before.</param>
    /// <param name="asIs">Whether it is the stack as it is clamped now, not one put together anew.</param>
    public StackPrediction Predict(IReadOnlyList<LeafLayer> rear, IReadOnlyList<LeafLayer> before, bool asIs = false)
    {
        var (model, samples) = (posterior.Model, posterior.Samples);
        var (springs, band) = (model.Feeder.Springs!, model.Feeder.Band);
        var count = samples.Count;
        double[] strokes = new double[count], natural = new double[count], deflection = new double[count], stiffnesses = new double[count], changes = new double[count];
        int inBand = 0, over = 0, normal = 0;
        for (var s = 0; s < count; s++)
        {
            var state = samples[s];
            var stiffness = model.Stiffness(state, rear, asIs ? state.Clamping : Math.Log(clamping[s]));
            var stroke = model.LogStroke(state, stiffness, trayChange);
            strokes[s] = Math.Exp(stroke + noise[s]);
            natural[s] = FeederModel.FreeHz(state, stiffness, trayChange);
            stiffnesses[s] = stiffness;
            deflection[s] = 0.5 * (1 + ((state.TrayKilograms + trayChange) / state.BodyKilograms));
            changes[s] = model.LogStroke(state, stiffness, trayChange + (0.01 * state.TrayKilograms)) - stroke;
            inBand += strokes[s] >= band.Low.Metres && strokes[s] <= band.High.Metres ? 1 : 0;
            over += Math.Exp(stroke) > band.Limit.Metres ? 1 : 0;
            normal += FeederModel.RunningHz(state, stiffness, trayChange) > model.DriveHz ? 1 : 0;
        }

        var perStroke = Quantiles.Of(deflection, 0.5);
        Array.Sort(strokes);
        var (median, upper) = (Quantiles.OfSorted(strokes, 0.5), Quantiles.OfSorted(strokes, 0.975));
        var thickest = rear.Count == 0 ? 0 : rear.Max(layer => layer.ThicknessMetres);
        var hertz = Quantiles.Of(natural, 0.5);
        var tidy = Stacks.Tidy(rear);
        return new()
        {
            Rear = tidy,
            Stroke = median,
            Low = Quantiles.OfSorted(strokes, 0.025),
            High = upper,
            InBand = inBand / (double)count,
            OverLimit = over / (double)count,
            Normal = normal / (double)count,
            NaturalHz = hertz,
            TuningRatio = hertz / model.DriveHz,
            Stiffness = Quantiles.Of(stiffnesses, 0.5),
            Stress = LeafSpring.Stress(springs.Modulus, thickest, springs.LengthMetres, perStroke * median),
            StressHigh = LeafSpring.Stress(springs.Modulus, thickest, springs.LengthMetres, perStroke * upper),
            ChangePerPercentTray = Quantiles.Of(changes, 0.5),
            Handled = Stacks.Handled(before, tidy),
            OtherThickness = tidy.Any(layer => Stacks.Count(before, layer.ThicknessMetres) == 0),
            Symmetric = tidy.Count(layer => layer.Count % 2 == 1) <= 1,
        };
    }

    private double Rear(int sample, int[] counts)
    {
        var kinds = leaves[sample];
        var sum = 0.0;
        for (var i = 0; i < kinds.Length; i++)
        {
            sum += counts[i] * kinds[i];
        }

        return sum;
    }
}
