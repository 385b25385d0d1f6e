namespace StrokeWatch.Measurement.Quality;

/// <summary>
/// Finds whether a folded cycle stays at its top or its bottom without any shape but noise: what a rail does to it, whatever the rest of the waveform is.
/// </summary>
/// <remarks>It allocates nothing after it is made.</remarks>
internal sealed class Plateau
{
    private const int LeastBins = 3;
    private const double Spread = 2;
    private const double Standing = 4;
    private const double Long = 0.1;
    private const double Short = 0.04;
    private const double Corner = 30;
    private const double Eased = 0.6;
    private const double Steps = 6;
    private const double Coarse = 2;

    private readonly double[] counts = new double[2 * PhaseFold.Bins + 1];
    private readonly double[] sums = new double[2 * PhaseFold.Bins + 1];
    private readonly double[] squares = new double[2 * PhaseFold.Bins + 1];

    /// <summary>
    /// Says whether the cycle may be cut. The longest arc counts, at its top or at its bottom, whose means differ by no more than noise (χ² within two standard
    /// deviations of what is expected) and beyond which no bin stands (by four). It must hold a tenth of the samples; or a twenty-fifth, if half its length farther out, on both
    /// sides, the cycle has fallen by 30 times the arc's noise, as past a corner, where a round top of that width falls by some 12 (four times what the arc hides).
    /// Where the converter's steps are coarser than noise it must have fallen by six of them; a round top that one step hides falls by four.
    /// </summary>
    /// <param name="fold">The cycle.</param>
    /// <param name="before">Whether one of the last windows may have been cut: then six tenths of each share, and of the corner, are enough, so that noise does not let single windows through.</param>
    public bool MayBeCut(PhaseFold fold, bool before) => MayBeCut(fold, 1, before ? Eased : 1) || MayBeCut(fold, -1, before ? Eased : 1);

    private bool MayBeCut(PhaseFold fold, int side, double ease)
    {
        var bins = fold.Filled;
        var extreme = double.MinValue;
        for (var bin = 0; bin < bins; bin++)
        {
            extreme = Math.Max(extreme, side * fold.Means[bin]);
        }

        // About the extreme: squares of small numbers lose no digits.
        for (var i = 0; i < 2 * bins; i++)
        {
            var (n, below) = (fold.Counts[i % bins], side * fold.Means[i % bins] - extreme);
            (counts[i + 1], sums[i + 1], squares[i + 1]) = (counts[i] + n, sums[i] + n * below, squares[i] + n * below * below);
        }

        double longest = 0, drop = 0, step = 0;
        for (var start = 0; start < bins; start++)
        {
            for (var length = LeastBins; length <= bins / 2; length++)
            {
                var (n, sum) = (counts[start + length] - counts[start], sums[start + length] - sums[start]);
                var (mean, freedom) = (sum / n, length - 1);
                var away = (squares[start + length] - squares[start] - sum * mean) / fold.Variance;
                if (n > longest && away <= freedom + Spread * Math.Sqrt(2 * freedom) && IsTop(fold, side, extreme + mean))
                {
                    var half = (length + 1) / 2;
                    var beside = Math.Max(side * fold.Means[(start - half + bins) % bins], side * fold.Means[(start + length - 1 + half) % bins]);
                    (longest, step) = (n, extreme + mean - beside);
                    drop = step / Math.Sqrt(fold.Variance * length / n);
                }
            }
        }

        var round = fold.Quantum > Coarse * Math.Sqrt(fold.Variance) && step < Steps * fold.Quantum;
        return !round && (longest > ease * Long * fold.Samples || (longest > ease * Short * fold.Samples && drop > ease * Corner));
    }

    private static bool IsTop(PhaseFold fold, int side, double level)
    {
        for (var bin = 0; bin < fold.Filled; bin++)
        {
            if (side * fold.Means[bin] - level > Standing * Math.Sqrt(fold.Variance / fold.Counts[bin]))
            {
                return false;
            }
        }

        return true;
    }
}
