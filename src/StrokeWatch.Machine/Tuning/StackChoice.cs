namespace StrokeWatch.Machine.Tuning;

/// <summary>The stacks that may be proposed, best first: those likeliest in the band among those that hardly ever exceed the limit.</summary>
/// <remarks>
/// Where stacks are nearly as good, practice decides (common practice, no source): leaves of the thickness that is in already, a stack that can be laid symmetric, few leaves
/// handled, leaves bent well below their endurance. Their weights are chances of landing in the band that are given up for them.
/// </remarks>
internal sealed class StackChoice
{
    private const double OtherThicknessCost = 0.02, AskewCost = 0.01, HandledCost = 0.002;
    private const double MissCost = 2, NearEnduranceCost = 0.1, NearEndurance = 0.85;
    private const int Shortlist = 40;
    private const long FewEnough = 20_000;
    private const int ScreeningEvery = 40;

    /// <summary>Goes through the stock.</summary>
    /// <param name="posterior">What the trials say.</param>
    /// <param name="stock">The stock.</param>
    /// <param name="scan">The scan.</param>
    /// <param name="normal">The least probability of the normal side that a stack must have.</param>
    public StackChoice(TuningPosterior posterior, StackStock stock, StackScan scan, double normal)
    {
        var (trials, installed) = (posterior.Trials, posterior.Trials[^1].Rear);
        bool Tried(IReadOnlyList<Feeder.LeafLayer> stack) => trials.Any(trial => Stacks.Same(trial.Rear, stack));
        var coarse = stock.Number > FewEnough;
        var keep = new PriorityQueue<int[], double>();
        foreach (var counts in stock.All())
        {
            var (inBand, over, right, miss) = scan.Look(counts, coarse ? ScreeningEvery : 1, tally: true);
            if (over <= (coarse ? 5 : 1) * TuningAdvisor.MostOver && right >= (coarse ? normal - 0.05 : normal))
            {
                keep.Enqueue([.. counts], inBand - (MissCost * miss) - Cost(counts, stock, installed));
                if (keep.Count > (coarse ? 20 : 1) * Shortlist)
                {
                    keep.Dequeue();
                }
            }
        }

        AnyFits = scan.AnyFits;
        var endurance = posterior.Model.Feeder.Springs!.EnduranceStress ?? double.PositiveInfinity;
        var predicted = keep.UnorderedItems.Select(item => scan.Predict(stock.Stack(item.Element), installed))
            .Where(stack => stack.OverLimit <= TuningAdvisor.MostOver && stack.Normal >= normal && !Tried(stack.Rear)).ToList();
        var strong = predicted.Where(stack => stack.StressHigh <= endurance).ToList();
        TooStressed = predicted.Count - strong.Count;
        Ranked = [.. strong.Where(stack => stack.InBand > 0).OrderByDescending(stack => stack.InBand - Cost(stack) - (stack.StressHigh > NearEndurance * endurance ? NearEnduranceCost : 0))];
        var band = posterior.Model.Feeder.Band;
        Nearest = Ranked.Count > 0 ? Ranked[0] : strong.MinBy(stack => Math.Max(band.Low.Metres - stack.Stroke, stack.Stroke - band.High.Metres)) ?? NearestOfAll(posterior, stock, scan, normal, Tried);
    }

    /// <summary>Gets the stacks that may be proposed and have some chance of landing in the band, best first.</summary>
    public IReadOnlyList<StackPrediction> Ranked { get; }

    /// <summary>Gets the best of them.</summary>
    public StackPrediction? Best => Ranked.Count > 0 ? Ranked[0] : null;

    /// <summary>Gets the stack that comes nearest to the band where none may be proposed; null where none is safe.</summary>
    public StackPrediction? Nearest { get; }

    /// <summary>Gets the probability that any stack lands in the band on the normal side.</summary>
    public double AnyFits { get; }

    /// <summary>Gets how many of the best were left out because their leaves would be bent too far.</summary>
    public int TooStressed { get; }

    private static double Cost(StackPrediction stack) =>
        (stack.OtherThickness ? OtherThicknessCost : 0) + (stack.Symmetric ? 0 : AskewCost) + (HandledCost * stack.Handled);

    private static double Cost(int[] counts, StackStock stock, IReadOnlyList<Feeder.LeafLayer> installed)
    {
        var (handled, odd, other) = (0, 0, false);
        for (var i = 0; i < counts.Length; i++)
        {
            var there = Stacks.Count(installed, stock.Thicknesses[i]);
            handled += Math.Abs(there - counts[i]);
            odd += counts[i] % 2;
            other |= counts[i] > 0 && there == 0;
        }

        return (other ? OtherThicknessCost : 0) + (odd <= 1 ? 0 : AskewCost) + (HandledCost * handled);
    }

    /// <summary>Looks for the stack whose stroke comes nearest to the band, none having any chance of landing in it: a few of even stiffness steps are predicted in full.</summary>
    private static StackPrediction? NearestOfAll(TuningPosterior posterior, StackStock stock, StackScan scan, double normal, Func<IReadOnlyList<Feeder.LeafLayer>, bool> tried)
    {
        const int Steps = 60;
        var all = new List<(double Stiffness, int[] Counts)>();
        foreach (var counts in stock.All())
        {
            all.Add((counts.Select((count, i) => count * Math.Pow(stock.Thicknesses[i], 3)).Sum(), [.. counts]));
        }

        all.Sort((one, other) => one.Stiffness.CompareTo(other.Stiffness));
        var band = posterior.Model.Feeder.Band;
        var installed = posterior.Trials[^1].Rear;
        return Enumerable.Range(0, Steps).Select(i => all[(int)((all.Count - 1L) * i / (Steps - 1))].Counts).Select(counts => scan.Predict(stock.Stack(counts), installed))
            .Where(stack => stack.OverLimit <= TuningAdvisor.MostOver && !tried(stack.Rear))
            .OrderBy(stack => stack.Normal >= normal ? 0 : 1)
            .ThenBy(stack => Math.Max(band.Low.Metres - stack.Stroke, stack.Stroke - band.High.Metres))
            .FirstOrDefault();
    }
}
