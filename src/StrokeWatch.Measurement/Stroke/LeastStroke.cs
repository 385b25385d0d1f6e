using StrokeWatch.Measurement.Quality;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// The least that the tray can have moved while the sensor clipped: harmonics fitted to the samples that stand clear of the rails and carried on through the cut,
/// less four standard deviations. It allocates nothing after it is made.
/// </summary>
/// <remarks>
/// Only where low harmonics with a flat cut explain the whole cycle down to its noise, and low harmonics alone the clear samples: the models of as few orders as do, of one
/// more and of three are all carried on, and the smallest counts.
/// </remarks>
internal sealed class LeastStroke
{
    private const int LowOrders = 3;
    private const int Size = 2 * (LowOrders + 1) + 1;
    private const double Deviations = 4;
    private const double ExplainedMultiple = 2;
    private const int Margin = 1;
    private const int LeastFreedom = 6;
    private const double ClearGain = 10;
    private const double LeastOvershoot = 0.003;
    private const int Points = 64;
    private static readonly double[] Circle = [.. Enumerable.Range(0, Points).Select(i => Math.Cos(2 * Math.PI * i / Points))];

    private readonly int axes;
    private readonly PhaseFold[] folds;
    private readonly sbyte[][] sides;
    private readonly double[][] coefficients;
    private readonly SmallSystem[] systems;
    private readonly double[] variances;
    private readonly double[] direction;
    private readonly double[] gradient = new double[Size];
    private readonly double[] solved = new double[Size];
    private readonly FlatTop model = new();

    /// <summary>Makes it for a number of axes.</summary>
    public LeastStroke(int axes)
    {
        this.axes = axes;
        folds = [.. Enumerable.Range(0, axes).Select(_ => new PhaseFold())];
        sides = [.. Enumerable.Range(0, axes).Select(_ => new sbyte[PhaseFold.Bins])];
        coefficients = [.. Enumerable.Range(0, axes).Select(_ => new double[Size])];
        systems = [.. Enumerable.Range(0, axes).Select(_ => new SmallSystem(Size, 1))];
        variances = new double[axes];
        direction = new double[axes];
    }

    /// <summary>Gives the least peak-to-peak displacement along the line of action times ω², in m/s²; null where the samples clear of the rails do not tell.</summary>
    /// <param name="samples">One array an axis, in m/s².</param>
    /// <param name="start">First sample.</param>
    /// <param name="fit">The harmonics of all samples, clipped ones too.</param>
    /// <param name="given">A given line of action; empty where the vibration tells.</param>
    public double? Of(double[][] samples, int start, IWindowHarmonics fit, ReadOnlySpan<double> given)
    {
        for (var a = 0; a < axes; a++)
        {
            var values = samples[a].AsSpan(start, fit.Count);
            var (bottom, top) = Lanes.Extremes(values);
            folds[a].Take(values, fit.Frequency, bottom, top);
            if (!Part(a, 0.5 * (top - bottom)))
            {
                return null;
            }
        }

        for (var orders = 1; orders <= LowOrders; orders++)
        {
            if (IsNoise(orders))
            {
                return Smallest(orders, given);
            }
        }

        return null;
    }

    private double? Smallest(int explaining, ReadOnlySpan<double> given)
    {
        double? least = null;
        for (var orders = explaining; orders <= Math.Max(explaining + 1, LowOrders); orders++)
        {
            if (orders > explaining + 1 && orders != LowOrders)
            {
                continue;
            }

            for (var a = 0; a < axes; a++)
            {
                if (!FlatTop.Harmonics(folds[a], sides[a], orders, systems[a], coefficients[a]))
                {
                    return null;
                }
            }

            var extent = Extent(orders, given);
            least = least is { } before ? Math.Min(before, extent) : extent;
        }

        return least;
    }

    /// <summary>Parts the bins of an axis into those at a rail or beside it, and the clear ones; false where a cut does not explain the cycle.</summary>
    private bool Part(int axis, double swing)
    {
        var (fold, side) = (folds[axis], sides[axis]);
        side.AsSpan().Clear();
        if (!model.Fit(fold, LowOrders) || model.UncutSquares - model.Squares < ClearGain * fold.Variance || model.Overshoot < LeastOvershoot * swing)
        {
            return true;
        }

        double freedom = fold.Filled - 2 * LowOrders - 2;
        if (model.Squares > fold.Variance * (freedom + ExplainedMultiple * Math.Sqrt(2 * freedom)))
        {
            return false;
        }

        // Bins beside a rail hold samples on it, and what a later filter has made of its corner.
        for (var bin = 0; bin < fold.Filled; bin++)
        {
            for (var beside = -Margin; beside <= Margin && model.Side[bin] != 0; beside++)
            {
                side[(bin + beside + fold.Filled) % fold.Filled] = 1;
            }
        }

        return true;
    }

    /// <summary>Says whether harmonics up to an order leave no more than noise in the clear bins of every axis.</summary>
    private bool IsNoise(int orders)
    {
        for (var a = 0; a < axes; a++)
        {
            if (!FlatTop.Harmonics(folds[a], sides[a], orders, systems[a], coefficients[a]))
            {
                return false;
            }

            var (squares, bins) = Left(a, orders);
            var freedom = bins - 2 * orders - 1;
            variances[a] = folds[a].Variance;
            if (freedom < LeastFreedom || squares > variances[a] * (freedom + ExplainedMultiple * Math.Sqrt(2 * freedom)))
            {
                return false;
            }
        }

        return true;
    }

    private (double Squares, int Bins) Left(int axis, int orders)
    {
        var squares = 0.0;
        var bins = 0;
        for (var bin = 0; bin < folds[axis].Filled; bin++)
        {
            if (sides[axis][bin] == 0)
            {
                var away = folds[axis].Means[bin] - FlatTop.Value(folds[axis].Basis(bin), coefficients[axis], orders);
                squares += folds[axis].Counts[bin] * away * away;
                bins++;
            }
        }

        return (squares, bins);
    }

    private double Extent(int orders, ReadOnlySpan<double> given)
    {
        Line(given);
        var size = 2 * orders + 1;
        double least = double.MaxValue, most = double.MinValue;
        int low = 0, high = 0;
        for (var i = 0; i < Points; i++)
        {
            var value = 0.0;
            for (var a = 0; a < axes; a++)
            {
                for (var j = 1; j < size; j++)
                {
                    value += direction[a] * coefficients[a][j] * Displacement(i, j);
                }
            }

            (least, low) = value < least ? (value, i) : (least, low);
            (most, high) = value > most ? (value, i) : (most, high);
        }

        var variance = 0.0;
        for (var a = 0; a < axes; a++)
        {
            gradient[0] = solved[0] = 0;
            for (var j = 1; j < size; j++)
            {
                gradient[j] = solved[j] = Displacement(high, j) - Displacement(low, j);
            }

            FlatTop.Solve(systems[a], solved.AsSpan(0, size));
            for (var j = 1; j < size; j++)
            {
                variance += direction[a] * direction[a] * variances[a] * gradient[j] * solved[j];
            }
        }

        return most - least - Deviations * Math.Sqrt(Math.Max(0, variance));
    }

    /// <summary>Gives the displacement times ω² that a coefficient of 1 makes at a point of the cycle.</summary>
    private static double Displacement(int point, int coefficient)
    {
        var order = (coefficient + 1) / 2;
        var turn = coefficient % 2 == 1 ? order * point : order * point + 3 * Points / 4;
        return -Circle[turn % Points] / (order * order);
    }

    private void Line(ReadOnlySpan<double> given)
    {
        if (!given.IsEmpty)
        {
            given.CopyTo(direction);
            return;
        }

        Span<double> spread = stackalloc double[axes * axes];
        for (var i = 0; i < axes; i++)
        {
            for (var j = 0; j < axes; j++)
            {
                spread[i * axes + j] = coefficients[i][1] * coefficients[j][1] + coefficients[i][2] * coefficients[j][2];
            }
        }

        LargestEigenvector.Find(spread, direction);
    }
}
