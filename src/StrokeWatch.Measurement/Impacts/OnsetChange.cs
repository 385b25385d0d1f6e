using System.Numerics;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// What came to a machine's orders, seen in the supply's own phase. The pull comes when the supply says; where the fundamental lags behind more than before, by friction, a load or contact, what the pull itself makes in the
/// orders is seen turned against it. By the phase that the windows before foretold (<see cref="PhaseTrack"/>) all orders are turned back, and what is left is what was added.
/// </summary>
internal sealed class OnsetChange
{
    /// <summary>How many numbers there are.</summary>
    public const int Count = Phases + (PerOrder * ChangedOrders.Orders) + 2 + (2 * (ChangedOrders.Orders - 1)) + (2 * ChangedOrders.Directed) + (2 * (ChangedOrders.Directed - 1)) + 6;

    /// <summary>The phase is foretold for so many seconds: beyond them a small grid's frequency has walked too far.</summary>
    public const double MostSeconds = 2.6;

    /// <summary>Windows before that differ by more radians about the phase do not foretell it.</summary>
    private const double MostApart = 0.3;

    private const int Phases = 5;
    private const int PerOrder = 6;
    private const double Unknown = 9, Missing = -7;

    /// <summary>The power of a change below this many times its noise says nothing of its phase.</summary>
    private const double Stands = 4;

    private readonly Complex[] added = new Complex[ChangedOrders.Orders];
    private readonly Complex[] relative = new Complex[ChangedOrders.Orders];
    private readonly Complex[] across = new Complex[ChangedOrders.Directed * OnsetPicture.MostAxes];

    /// <summary>Says whether the windows before foretell the phase.</summary>
    /// <param name="orders">The numbers of <see cref="ChangedOrders"/>.</param>
    public static bool Foretold(ReadOnlySpan<double> orders) => orders[2] is > 0 and <= MostSeconds && Apart(orders) <= MostApart;

    /// <summary>Works the numbers out.</summary>
    /// <param name="orders">The numbers of <see cref="ChangedOrders"/>.</param>
    /// <param name="turn">By how many radians the fundamental is ahead; null where the windows before tell it.</param>
    /// <param name="sign">1 for the end at which the acceleration along the line is greatest, −1 for the other.</param>
    /// <param name="into">Takes the numbers.</param>
    public void Fill(ReadOnlySpan<double> orders, double? turn, int sign, Span<double> into)
    {
        var floor = orders[ChangedOrders.Floor];
        var ahead = turn ?? orders[1];
        (into[0], into[1], into[2], into[3], into[4]) = turn is null ? (orders[0], orders[1], Apart(orders), orders[2], orders[3]) : (Unknown, Unknown, Unknown, Unknown, orders[3]);
        into = into[Phases..];
        var fundamental = Power(Then(orders, ChangedOrders.Line));
        double left = 0, seen = 0;
        for (var i = 0; i < ChangedOrders.Orders; i++)
        {
            var at = ChangedOrders.Line + (4 * i);
            var (now, then) = (Now(orders, at), Then(orders, at));
            var there = now != Complex.Zero || then != Complex.Zero;
            var change = (now * Complex.FromPolarCoordinates(1, (i + 1) * ahead)) - then;
            var (power, stood) = (Power(change), Power(then));
            var stands = there && power > Stands * floor;
            (left, seen) = i == 0 ? (0, 0) : (left + power, seen + Power(now - then));

            // About the other end odd orders keep their sign in the sense of a push, even ones turn about.
            added[i] = !stands ? 0 : change / Math.Sqrt(power) * (sign < 0 && i % 2 == 1 ? -1 : 1);
            relative[i] = !stands || stood == 0 ? 0 : change * Complex.Conjugate(then) / Math.Sqrt(power * stood);
            (into[0], into[1], into[2]) = (there ? BlowOrders.Log(power + floor, fundamental) : Missing, added[i].Real, added[i].Imaginary);
            (into[3], into[4], into[5]) = (there ? BlowOrders.Log(power + floor, stood + floor) : Missing, relative[i].Real, relative[i].Imaginary);
            into = into[PerOrder..];
        }

        (into[0], into[1]) = (BlowOrders.Log(left + floor, floor), BlowOrders.Log(left + floor, seen + floor));
        into = Steps(relative, Steps(added, into[2..]));
        into = Directions(orders, ahead, floor, first: 0, into);
        Directions(orders, null, floor, first: 1, into);
    }

    private static double Apart(ReadOnlySpan<double> orders) => Math.Abs(Math.IEEERemainder(orders[0] - orders[1], 2 * Math.PI));

    private static double Power(Complex value) => (value.Real * value.Real) + (value.Imaginary * value.Imaginary);

    private static Complex Now(ReadOnlySpan<double> orders, int at) => new(orders[at], orders[at + 1]);

    private static Complex Then(ReadOnlySpan<double> orders, int at) => new(orders[at + 2], orders[at + 3]);

    /// <summary>Tells by how much phases step from order to order: a blow's by as much each time.</summary>
    private static Span<double> Steps(Complex[] values, Span<double> into)
    {
        for (var i = 1; i < values.Length; i++)
        {
            var step = values[i] * Complex.Conjugate(values[i - 1]);
            into[i - 1] = step == Complex.Zero ? Unknown : step.Phase;
        }

        return into[(values.Length - 1)..];
    }

    /// <summary>
    /// Tells how far orders move the sensor across the line in which the fundamental moves it, how far in step with what they do along it, and whether orders do so on the same side: what pushes the tray from without swings its modes more than
    /// what comes from between armature and core.
    /// </summary>
    private Span<double> Directions(ReadOnlySpan<double> orders, double? ahead, double floor, int first, Span<double> into)
    {
        Span<double> line = stackalloc double[OnsetPicture.MostAxes];
        var length = 0.0;
        for (var axis = 0; axis < line.Length; axis++)
        {
            line[axis] = Then(orders, ChangedOrders.Axes + (4 * axis)).Real;
            length += line[axis] * line[axis];
        }

        var n = ChangedOrders.Directed - first;
        for (var i = first; i < ChangedOrders.Directed; i++)
        {
            var turned = Complex.FromPolarCoordinates(1, (i + 1) * (ahead ?? 0));
            var own = across.AsSpan(i * line.Length, line.Length);
            Complex along = 0;
            for (var axis = 0; axis < line.Length; axis++)
            {
                var at = ChangedOrders.Axes + (4 * ((line.Length * i) + axis));
                own[axis] = ahead is null ? Then(orders, at) : (Now(orders, at) * turned) - Then(orders, at);
                along += own[axis] * (line[axis] / Math.Sqrt(Math.Max(length, 1e-300)));
            }

            double beside = 0, inStep = 0, all = 0;
            var straight = Power(along);
            for (var axis = 0; axis < line.Length; axis++)
            {
                own[axis] -= along * (line[axis] / Math.Sqrt(Math.Max(length, 1e-300)));
                beside += Power(own[axis]);
                own[axis] = straight > Stands * floor ? own[axis] / along : 0;
                (inStep, all) = (inStep + (own[axis].Real * own[axis].Real), all + Power(own[axis]));
            }

            into[i - first] = BlowOrders.Log(beside + (2 * floor), straight + floor);
            into[n + i - first] = all > 0 ? inStep / all : -1;
        }

        into = into[(2 * n)..];
        (into[0], into[1], into[2]) = (Alike(1, 2), Alike(1, 3), Alike(2, 3));
        return into[3..];
    }

    /// <summary>Gives the cosine of the angle between what two orders do across the line, in step with what they do along it.</summary>
    private double Alike(int i, int j)
    {
        double both = 0, one = 0, other = 0;
        for (var axis = 0; axis < OnsetPicture.MostAxes; axis++)
        {
            var (a, b) = (across[(i * OnsetPicture.MostAxes) + axis].Real, across[(j * OnsetPicture.MostAxes) + axis].Real);
            (both, one, other) = (both + (a * b), one + (a * a), other + (b * b));
        }

        return both / Math.Sqrt(Math.Max(one * other, 1e-300));
    }
}
