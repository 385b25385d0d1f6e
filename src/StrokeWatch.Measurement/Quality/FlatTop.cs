using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Quality;

/// <summary>
/// The least-squares fit of a cut waveform to one folded cycle: low harmonics through the bins below the cut, a constant rail through those that the harmonics
/// put beyond it. Which bins those are is found by going back and forth between the two; tops, bottoms and both are tried.
/// </summary>
/// <remarks>It allocates nothing after it is made.</remarks>
internal sealed class FlatTop
{
    private const int MostRounds = 8;
    private const int LeastSpare = 4;
    private static readonly double[] Shares = [0.06, 0.12, 0.25, 0.36];

    private readonly SmallSystem system = new(2 * PhaseFold.MostOrders + 1, 1);
    private readonly double[] coefficients = new double[2 * PhaseFold.MostOrders + 1];
    private readonly double[] curve = new double[PhaseFold.Bins];
    private readonly double[] sorted = new double[PhaseFold.Bins];
    private readonly int[] order = new int[PhaseFold.Bins];
    private readonly sbyte[] side = new sbyte[PhaseFold.Bins];
    private readonly sbyte[] best = new sbyte[PhaseFold.Bins];
    private double topRail;
    private double bottomRail;

    /// <summary>Gets +1 where a bin stands at a top rail, -1 at a bottom one, else 0, as the best fit has it.</summary>
    public ReadOnlySpan<sbyte> Side => best;

    /// <summary>Gets the sum of squares that the cut waveform leaves.</summary>
    public double Squares { get; private set; }

    /// <summary>Gets the sum of squares that the same harmonics leave without a cut.</summary>
    public double UncutSquares { get; private set; }

    /// <summary>Gets the root mean square by which the harmonics stand beyond the rail.</summary>
    public double Overshoot { get; private set; }

    /// <summary>Gets the root mean square by which the bins at the rail differ from it, noise taken off.</summary>
    public double Unevenness { get; private set; }

    /// <summary>Gets the share of the samples at a rail.</summary>
    public double Share { get; private set; }

    /// <summary>Gets the rail farthest from zero at which bins stand.</summary>
    public double Rail { get; private set; }

    /// <summary>Fits; false where no cut waveform fits, or too few bins are filled.</summary>
    public bool Fit(PhaseFold fold, int orders)
    {
        if (fold.Filled < 2 * orders + 1 + 2 * LeastSpare)
        {
            return false;
        }

        UncutSquares = Uncut(fold, orders) ?? double.PositiveInfinity;
        Squares = double.PositiveInfinity;
        Rank(fold);
        foreach (var share in Shares)
        {
            Try(fold, orders, share, top: true, bottom: true);
            Try(fold, orders, share, top: true, bottom: false);
            Try(fold, orders, share, top: false, bottom: true);
        }

        return double.IsFinite(Squares) && double.IsFinite(UncutSquares);
    }

    /// <summary>Gives the sum of squares that harmonics leave without a cut; null where too few bins are filled. What the last fit found is kept.</summary>
    public double? Uncut(PhaseFold fold, int orders)
    {
        side.AsSpan().Clear();
        return fold.Filled >= 2 * orders + 1 + 2 * LeastSpare && Solve(fold, orders) ? Remaining(fold, cut: false) : null;
    }

    private void Rank(PhaseFold fold)
    {
        fold.Means.CopyTo(sorted);
        for (var bin = 0; bin < fold.Filled; bin++)
        {
            order[bin] = bin;
        }

        sorted.AsSpan(0, fold.Filled).Sort(order.AsSpan(0, fold.Filled));
    }

    private void Try(PhaseFold fold, int orders, double share, bool top, bool bottom)
    {
        var most = share * fold.Samples;
        side.AsSpan().Clear();
        double above = 0, below = 0;
        for (int low = 0, high = fold.Filled - 1; low < fold.Filled; low++, high--)
        {
            below += fold.Counts[order[low]];
            above += fold.Counts[order[high]];
            side[order[low]] = bottom && below <= most ? (sbyte)-1 : side[order[low]];
            side[order[high]] = top && above <= most ? (sbyte)1 : side[order[high]];
        }

        for (var round = 0; ; round++)
        {
            if (!Rails(fold, top, bottom) || !Solve(fold, orders))
            {
                return;
            }

            var changed = Assign(fold, top, bottom);
            if (!changed || round == MostRounds)
            {
                break;
            }
        }

        // Bins put at a rail in the last round must still stand beyond it, or the cut waveform would not be one.
        if (Rails(fold, top, bottom) && Remaining(fold, cut: true) is var squares && squares < Squares)
        {
            Squares = squares;
            Keep(fold);
        }
    }

    private bool Rails(PhaseFold fold, bool top, bool bottom)
    {
        double above = 0, below = 0, high = 0, low = 0;
        var free = 0;
        for (var bin = 0; bin < fold.Filled; bin++)
        {
            var n = fold.Counts[bin];
            above += side[bin] > 0 ? n : 0;
            high += side[bin] > 0 ? n * fold.Means[bin] : 0;
            below += side[bin] < 0 ? n : 0;
            low += side[bin] < 0 ? n * fold.Means[bin] : 0;
            free += side[bin] == 0 ? 1 : 0;
        }

        topRail = above > 0 ? high / above : double.PositiveInfinity;
        bottomRail = below > 0 ? low / below : double.NegativeInfinity;
        return (!top || above > 0) && (!bottom || below > 0) && free > 0;
    }

    private bool Assign(PhaseFold fold, bool top, bool bottom)
    {
        var changed = false;
        for (var bin = 0; bin < fold.Filled; bin++)
        {
            var now = (sbyte)(top && curve[bin] > topRail ? 1 : bottom && curve[bin] < bottomRail ? -1 : 0);
            changed |= now != side[bin];
            side[bin] = now;
        }

        return changed;
    }

    /// <summary>Fits harmonics to the bins at no rail and gives their value in every bin.</summary>
    private bool Solve(PhaseFold fold, int orders)
    {
        if (!Harmonics(fold, side, orders, system, coefficients))
        {
            return false;
        }

        for (var bin = 0; bin < fold.Filled; bin++)
        {
            curve[bin] = Value(fold.Basis(bin), coefficients, orders);
        }

        return true;
    }

    /// <summary>Fits harmonics to the bins that stand at no rail; false where too few are left.</summary>
    /// <param name="fold">The cycle.</param>
    /// <param name="side">0 for the bins used.</param>
    /// <param name="orders">Highest order.</param>
    /// <param name="system">Takes the factored normal equations.</param>
    /// <param name="coefficients">Takes the constant, cosine and sine of order 1, and so on.</param>
    public static bool Harmonics(PhaseFold fold, ReadOnlySpan<sbyte> side, int orders, SmallSystem system, Span<double> coefficients)
    {
        var size = 2 * orders + 1;
        var used = 0;
        for (var row = 0; row < size; row++)
        {
            coefficients[row] = 0;
            system.Row(row).Clear();
        }

        for (var bin = 0; bin < fold.Filled; bin++)
        {
            if (side[bin] != 0)
            {
                continue;
            }

            used++;
            var basis = fold.Basis(bin);
            for (var row = 0; row < size; row++)
            {
                var weighted = fold.Counts[bin] * basis[row];
                coefficients[row] += weighted * fold.Means[bin];
                var entries = system.Row(row);
                for (var column = row; column < size; column++)
                {
                    entries[column] += weighted * basis[column];
                }
            }
        }

        if (used < size + LeastSpare || !system.Factor(size))
        {
            return false;
        }

        Solve(system, coefficients[..size]);
        return true;
    }

    /// <summary>Solves a factored system for one right side, in place.</summary>
    public static void Solve(SmallSystem system, Span<double> values)
    {
        for (var row = 0; row < values.Length; row++)
        {
            system[row, 0] = values[row];
        }

        system.Solve();
        for (var row = 0; row < values.Length; row++)
        {
            values[row] = system[row, 0];
        }
    }

    /// <summary>Gives the value of harmonics at a place.</summary>
    public static double Value(ReadOnlySpan<double> basis, ReadOnlySpan<double> coefficients, int orders)
    {
        var value = coefficients[0];
        for (var i = 1; i <= 2 * orders; i++)
        {
            value += coefficients[i] * basis[i];
        }

        return value;
    }

    private double Remaining(PhaseFold fold, bool cut)
    {
        var squares = 0.0;
        for (var bin = 0; bin < fold.Filled; bin++)
        {
            var away = fold.Means[bin] - (cut ? Math.Clamp(curve[bin], bottomRail, Math.Max(bottomRail, topRail)) : curve[bin]);
            squares += fold.Counts[bin] * away * away;
        }

        return squares;
    }

    private void Keep(PhaseFold fold)
    {
        double beyond = 0, uneven = 0, samples = 0;
        var bins = 0;
        for (var bin = 0; bin < fold.Filled; bin++)
        {
            best[bin] = side[bin];
            if (side[bin] == 0)
            {
                continue;
            }

            var rail = side[bin] > 0 ? topRail : bottomRail;
            var (n, over, off) = (fold.Counts[bin], curve[bin] - rail, fold.Means[bin] - rail);
            bins++;
            samples += n;
            beyond += n * over * over;
            uneven += n * off * off;
        }

        Share = samples / fold.Samples;
        Overshoot = samples > 0 ? Math.Sqrt(beyond / samples) : 0;
        Unevenness = samples > 0 ? Math.Sqrt(Math.Max(0, uneven - (bins - 1) * fold.Variance) / samples) : 0;
        Rail = !double.IsFinite(topRail) || -bottomRail > topRail ? bottomRail : topRail;
    }
}
