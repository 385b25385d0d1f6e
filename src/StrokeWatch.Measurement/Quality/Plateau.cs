namespace StrokeWatch.Measurement.Quality;

/// <summary>
/// Finds whether a folded cycle stays at its top or its bottom without any shape but noise: what a rail does to it, whatever the rest of the waveform is.
/// </summary>
/// <remarks>It allocates nothing after it is made.</remarks>
internal sealed class Plateau
{
    /// <summary>An axis whose amplitude is this many times its noise shows tops that are round for longer than noise hides.</summary>
    public const double Loud = 15;

    private const int LeastBins = 3;
    private const double Spread = 3;
    private const double Standing = 4;
    private const double Long = 0.1;
    private const double Short = 0.04;
    private const double Corner = 30;
    private const double Eased = 0.6;
    private const double Margin = 1.2;
    private const double Hiding = 16;
    private const double Peakier = 4;
    private const double Steps = 6;
    private const double Coarse = 2;
    private const double LeastFall = 0.25;

    private readonly double[] counts = new double[2 * PhaseFold.Bins + 1];
    private readonly double[] sums = new double[2 * PhaseFold.Bins + 1];
    private readonly double[] squares = new double[2 * PhaseFold.Bins + 1];

    /// <summary>Gets the most that a cut which cannot be told from this cycle's round tops takes off its fundamental, as a share of it.</summary>
    /// <remarks>
    /// A top cut for an arc of half width θ loses a parabola of the curvature that the cycle shows beside the arc: it falls by d from the arc's end to twice θ, so that d/3 is gone at most, and
    /// 4θd/9π of the fundamental; at least what a sine of that arc loses, (θ − sin θ cos θ)/π. <see cref="Peakier"/> for tops that bend more than their sides; checked by the benchmark <c>clipping</c>.
    /// </remarks>
    public double Hidden { get; private set; }

    /// <summary>
    /// Says whether the cycle may be cut. The longest arc counts, at its top or at its bottom, whose means differ by no more than noise (χ² within three standard
    /// deviations of what is expected) and beyond which no bin stands (by four). It must hold a tenth of the samples; or a twenty-fifth, if half its length farther out, on both
    /// sides, the cycle has fallen by 30 times the arc's noise, as past a corner, where a round top of that width falls by some 12 (four times what the arc hides).
    /// On an axis not far louder than noise the tenth becomes what noise hides of a sine's top, and a fifth more, beside which the cycle must fall by a quarter of what a sine falls.
    /// Where the converter's steps are coarser than noise it must have fallen by six of them; a round top that one step hides falls by four.
    /// </summary>
    /// <param name="fold">The cycle.</param>
    /// <param name="amplitude">The fundamental's amplitude, in the cycle's unit, above 0.</param>
    /// <param name="noise">The standard deviation of a sample by noise, in the same unit; where it is more than a fifteenth of the amplitude, every round top looks flat for a while, and only an arc well beyond what noise hides of a sine's counts.</param>
    /// <param name="before">Whether one of the last windows may have been cut: then six tenths of each share, and of the corner, are enough, so that noise does not let single windows through.</param>
    public bool MayBeCut(PhaseFold fold, double amplitude, double noise, bool before)
    {
        var loudness = amplitude / noise;
        Hidden = 0;
        var ease = before ? Eased : 1;
        var plain = loudness > Loud ? ease * Long : Math.Max(ease * Long, Margin * HiddenArc(fold.Samples, loudness) / Math.PI);
        var cornered = loudness > Loud ? ease * Short : double.PositiveInfinity;
        var (top, bottom) = (MayBeCut(fold, 1, amplitude, plain, cornered, ease * Corner), MayBeCut(fold, -1, amplitude, plain, cornered, ease * Corner));
        return top || bottom;
    }

    /// <summary>
    /// Gives the half width in radians, π/2 at most, of the arc in which a sine's round top looks flat: an arc of half width φ falls by Aφ²/2, which adds N·φ/π·(Aφ²/2σ)²·4/45 to its χ²; four standard deviations of χ² with eight bins hide that.
    /// </summary>
    /// <param name="samples">How many samples are folded into the cycle.</param>
    /// <param name="loudness">The amplitude over the standard deviation of a sample's noise.</param>
    public static double HiddenArc(int samples, double loudness) => Math.Min(0.5 * Math.PI, Math.Pow(Hiding * 45 * Math.PI / (samples * loudness * loudness), 0.2));

    /// <summary>Gives the share of its amplitude that a sine loses by being cut on one side for an arc: (θ − sin θ cos θ)/π, from its Fourier integral.</summary>
    /// <param name="half">Half width θ of the arc in radians.</param>
    public static double Lost(double half) => (half - Math.Sin(half) * Math.Cos(half)) / Math.PI;

    private bool MayBeCut(PhaseFold fold, int side, double amplitude, double plain, double cornered, double corner)
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
                    var farther = (length + 1) / 2;
                    var beside = Math.Max(side * fold.Means[(start - farther + bins) % bins], side * fold.Means[(start + length - 1 + farther) % bins]);
                    (longest, step) = (n, extreme + mean - beside);
                    drop = step / Math.Sqrt(fold.Variance * length / n);
                }
            }
        }

        var half = Math.PI * longest / fold.Samples;
        Hidden += Math.Max(4 * half * Math.Max(0, step) / (9 * Math.PI * amplitude), Lost(half)) * Peakier;
        var round = fold.Quantum > Coarse * Math.Sqrt(fold.Variance) && step < Steps * fold.Quantum;
        var falls = double.IsFinite(cornered) || step > LeastFall * amplitude * (Math.Cos(half) - Math.Cos(2 * half));
        return !round && falls && (longest > plain * fold.Samples || (longest > cornered * fold.Samples && drop > corner));
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
