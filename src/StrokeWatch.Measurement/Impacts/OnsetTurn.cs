namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// What came to a machine's orders apart from a turn. Friction lets the fundamental lag behind the pull, and all that the pull makes in the orders is then seen turned, each order by so many times the angle: a change
/// in the direction in which the magnet moves the sensor, though nothing came from between armature and core. The angle that explains most of the change is looked for, and what it leaves is told.
/// </summary>
internal sealed class OnsetTurn
{
    /// <summary>How many numbers there are.</summary>
    public const int Count = (2 * PerScale) + (3 * Told) + 1;

    /// <summary>How many orders from the second on are compared.</summary>
    public const int Orders = 4;

    private const int Told = 3;
    private const int PerScale = 3 + (3 * Told) + (Told - 1);
    private const int Angles = 161;
    private const double MostRadians = 0.4;

    private static readonly (double Cos, double Sin)[] Turns = [.. Enumerable.Range(0, Angles * Orders).Select(Turn)];
    private readonly double[] real = new double[Orders];
    private readonly double[] imaginary = new double[Orders];
    private readonly double[] weights = new double[Orders];

    /// <summary>Works the numbers out.</summary>
    /// <param name="ratios">By order, from the second: the common logarithm of the power of the change over that before, and the cosine and sine of its angle to what was before.</param>
    /// <param name="changes">By order: the common logarithm of the power of the change over the fundamental's, in steps of three.</param>
    /// <param name="grown">The common logarithm of the fundamental's amplitude over that before.</param>
    /// <param name="floor">The common logarithm of what noise makes of the power of a change, over the fundamental's.</param>
    /// <param name="cyclesPerSample">The drive in cycles a sample.</param>
    /// <param name="into">Takes the numbers.</param>
    public void Fill(ReadOnlySpan<double> ratios, ReadOnlySpan<double> changes, double grown, double floor, double cyclesPerSample, Span<double> into)
    {
        var change = 1e-12;
        for (var i = 0; i < Orders; i++)
        {
            var (ratio, cos, sin) = (ratios[3 * i], ratios[(3 * i) + 1], ratios[(3 * i) + 2]);
            var there = (i + 2) * cyclesPerSample < Windows.OrderChoice.LowShare;
            var size = there && (cos != 0 || sin != 0) ? Math.Pow(10, ratio / 2) : 0;
            (real[i], imaginary[i]) = (1 + (size * cos), size * sin);
            var power = there ? Math.Pow(10, changes[3 * i]) : 0;
            (weights[i], change) = (there ? power / Math.Pow(10, ratio) : 0, change + power);
        }

        var noise = Math.Pow(10, floor);
        Turned(Math.Pow(10, grown), change, noise, into);
        Turned(1, change, noise, into[PerScale..]);
        var rest = into[(2 * PerScale)..];
        for (var i = 0; i < Told; i++)
        {
            var logarithm = Math.Log(Math.Sqrt((real[i] * real[i]) + (imaginary[i] * imaginary[i])) + 1e-3);
            rest[3 * i] = logarithm;
            rest[(3 * i) + 1] = Angle(i) / (i + 2);
            rest[(3 * i) + 2] = logarithm - (grown * Math.Log(10));
        }

        rest[3 * Told] = (Angle(1) / 3) - (Angle(0) / 2);
    }

    private static (double Cos, double Sin) Turn(int index)
    {
        var angle = MostRadians * ((2.0 * (index / Orders) / (Angles - 1)) - 1);
        var (sin, cos) = Math.SinCos((index % Orders + 2) * angle);
        return (cos, sin);
    }

    private double Angle(int i) => Math.Atan2(imaginary[i], real[i]);

    /// <summary>Looks for the angle at which orders that have all grown by one factor and turned leave least, and tells what is left about the turned orders.</summary>
    private void Turned(double scale, double change, double noise, Span<double> into)
    {
        var (best, least) = (0, double.PositiveInfinity);
        for (var angle = 0; angle < Angles; angle++)
        {
            var left = 0.0;
            for (var i = 0; i < Orders; i++)
            {
                var (cos, sin) = Turns[(angle * Orders) + i];
                var (x, y) = ((real[i] / scale) - cos, (imaginary[i] / scale) - sin);
                left += weights[i] * ((x * x) + (y * y));
            }

            (best, least) = left < least ? (angle, left) : (best, least);
        }

        into[0] = MostRadians * ((2.0 * best / (Angles - 1)) - 1);
        into[1] = Math.Log10(least + 1e-12) - Math.Log10(change);
        into[2] = Math.Log10(least + noise) - Math.Log10(noise);
        double firstX = 0, firstY = 0;
        for (var i = 0; i < Told; i++)
        {
            var (cos, sin) = Turns[(best * Orders) + i];
            var (x, y) = ((real[i] / scale) - cos, (imaginary[i] / scale) - sin);
            (x, y) = ((x * cos) + (y * sin), (y * cos) - (x * sin));
            var numbers = into[(3 + (3 * i))..];
            (numbers[0], numbers[1], numbers[2]) = (x, y, Math.Log10(Math.Sqrt((x * x) + (y * y)) + 1e-6));
            if (i == 0)
            {
                (firstX, firstY) = (x, y);
            }
            else
            {
                into[3 + (3 * Told) + i - 1] = Math.Atan2((y * firstX) - (x * firstY), (x * firstX) + (y * firstY));
            }
        }
    }
}
