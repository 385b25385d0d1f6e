using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// What in a window's rest, its orders taken off, cannot be told from the samples before, and when in the cycle it comes. Blows that vary a little excite the tray's own vibration, which rings
/// on through cycles and hides when they came; linear prediction takes the ringing off, and what is left is loud at one moment of the cycle only where something locked to the drive varies.
/// Friction and the magnet's force vary not at all; pieces, a guard and a neighbour at no moment of their own.
/// </summary>
/// <remarks>Prediction by the covariance method (J. Makhoul, Proc. IEEE 63, 1975; from memory). Single loud values are clipped at three times the root mean square: one piece must not speak for all cycles.</remarks>
internal sealed class Innovations
{
    /// <summary>How many numbers there are about one end.</summary>
    public const int Count = BlowFeatures.Sectors + 4 + Plain;

    private const int Plain = 8;
    private const int Order = 12;
    private const double Clip = 9;

    /// <summary>The common logarithm of modulation over its standard deviation that is told where there is none.</summary>
    private const double LeastTold = 0.05;

    private readonly SmallSystem system = new(Order, 1);
    private readonly double[] products = new double[(Order + 1) * (Order + 1)];
    private readonly double[] weights = new double[Order];
    private readonly double[] sectors = new double[BlowFeatures.Sectors];
    private readonly double[] parts = new double[4];
    private readonly double[] plain = new double[Plain];
    private double[] left = [];

    /// <summary>Works a window's rest out.</summary>
    /// <param name="rest">The line less its orders, in m/s².</param>
    /// <param name="frequency">The drive in cycles a sample.</param>
    /// <param name="phase">The fundamental's phase at the first sample, in radians from where the acceleration along the line is greatest.</param>
    /// <param name="fundamental">The fundamental's power along the line, in m²/s⁴.</param>
    public void Work(ReadOnlySpan<double> rest, double frequency, double phase, double fundamental)
    {
        var count = rest.Length - Order;
        if (count < 4 * Order || !Predict(rest))
        {
            Array.Clear(sectors);
            Array.Clear(parts);
            Array.Clear(plain);
            return;
        }

        if (left.Length < count)
        {
            left = new double[2 * count];
        }

        var values = left.AsSpan(0, count);
        rest[Order..].CopyTo(values);
        for (var i = 0; i < Order; i++)
        {
            Lanes.AddWeighted(rest.Slice(Order - 1 - i, count), -weights[i], values);
        }

        var (power, fourth) = (Lanes.Dot(values, values) / count, 0.0);
        power = Math.Max(power, 1e-300);
        var most = Clip * power;
        var sum = 0.0;
        for (var n = 0; n < count; n++)
        {
            var square = values[n] * values[n];
            fourth += square * square;
            values[n] = Math.Min(square, most);
            sum += values[n];
        }

        Modulation(values, Math.Max(sum / count, 1e-300), frequency, phase + (2 * Math.PI * frequency * Order));
        var ringing = Lanes.Dot(rest[Order..], rest[Order..]) / count;
        (plain[5], plain[6], plain[7]) = (BlowOrders.Log(ringing, power), BlowOrders.Log(fourth / count, power * power), BlowOrders.Log(power, fundamental));
    }

    /// <summary>Gives the numbers about one end of the path.</summary>
    /// <param name="half">The sixteenth at which the end is.</param>
    /// <param name="into">Takes the numbers.</param>
    /// <param name="n">Where the first one goes.</param>
    /// <returns>Where the next one goes.</returns>
    public int Fill(int half, Span<double> into, int n)
    {
        for (var s = 0; s < sectors.Length; s++)
        {
            into[n++] = sectors[(s + half) % sectors.Length];
        }

        var sign = half == 0 ? 1 : -1;
        (into[n], into[n + 1], into[n + 2], into[n + 3]) = (sign * parts[0], sign * parts[1], parts[2], parts[3]);
        plain.CopyTo(into[(n + 4)..]);
        return n + 4 + Plain;
    }

    /// <summary>Finds the weights by which the last values foretell the next one.</summary>
    private bool Predict(ReadOnlySpan<double> rest)
    {
        const int Width = Order + 1;
        var count = rest.Length - Order;
        for (var j = 0; j < Width; j++)
        {
            products[j] = Lanes.Dot(rest.Slice(Order, count), rest.Slice(Order - j, count));
        }

        for (var i = 1; i < Width; i++)
        {
            for (var j = i; j < Width; j++)
            {
                products[(i * Width) + j] = products[((i - 1) * Width) + j - 1] + (rest[Order - i] * rest[Order - j]) - (rest[^i] * rest[^j]);
            }
        }

        for (var i = 0; i < Order; i++)
        {
            var row = system.Row(i);
            for (var j = i; j < Order; j++)
            {
                row[j] = products[((i + 1) * Width) + j + 1] + (i == j ? 1e-9 * products[0] : 0);
            }

            system[i, 0] = products[i + 1];
        }

        if (!system.Factor(Order))
        {
            return false;
        }

        system.Solve();
        for (var i = 0; i < Order; i++)
        {
            weights[i] = system[i, 0];
        }

        return true;
    }

    /// <summary>Tells how the power of what was not foretold goes with the drive: by sixteenths of the cycle, with its orders, and with its half and third orders.</summary>
    private void Modulation(ReadOnlySpan<double> powers, double mean, double frequency, double phase)
    {
        Span<double> re = stackalloc double[6], im = stackalloc double[6];
        Span<int> members = stackalloc int[BlowFeatures.Sectors];
        re.Clear();
        im.Clear();
        members.Clear();
        Array.Clear(sectors);
        var spread = 0.0;

        // The angle of a sixth of an order, of which orders, halves and thirds are powers.
        var (sin, cos) = Math.SinCos(phase / 6);
        var (turnSin, turnCos) = Math.SinCos(2 * Math.PI * frequency / 6);
        var at = (phase / (2 * Math.PI) * BlowFeatures.Sectors) + 0.5;
        at -= Math.Floor(at / BlowFeatures.Sectors) * BlowFeatures.Sectors;
        foreach (var power in powers)
        {
            var share = (power / mean) - 1;
            spread += share * share;
            var sector = Math.Min((int)at, BlowFeatures.Sectors - 1);
            sectors[sector] += power;
            members[sector]++;
            at += frequency * BlowFeatures.Sectors;
            at -= at >= BlowFeatures.Sectors ? BlowFeatures.Sectors : 0;
            var (c2, s2) = ((cos * cos) - (sin * sin), 2 * sin * cos);
            var (c3, s3) = ((c2 * cos) - (s2 * sin), (s2 * cos) + (c2 * sin));
            var (c6, s6) = ((c3 * c3) - (s3 * s3), 2 * s3 * c3);
            var (c12, s12) = ((c6 * c6) - (s6 * s6), 2 * s6 * c6);
            (re[0], im[0]) = (re[0] + (share * c6), im[0] + (share * s6));
            (re[1], im[1]) = (re[1] + (share * c12), im[1] + (share * s12));
            (re[2], im[2]) = (re[2] + (share * ((c12 * c6) - (s12 * s6))), im[2] + (share * ((s12 * c6) + (c12 * s6))));
            (re[3], im[3]) = (re[3] + (share * c3), im[3] + (share * s3));
            (re[4], im[4]) = (re[4] + (share * c2), im[4] + (share * s2));
            (re[5], im[5]) = (re[5] + (share * ((c6 * c3) - (s6 * s3))), im[5] + (share * ((s6 * c3) + (c6 * s3))));
            (cos, sin) = ((cos * turnCos) - (sin * turnSin), (sin * turnCos) + (cos * turnSin));
        }

        for (var s = 0; s < sectors.Length; s++)
        {
            sectors[s] = members[s] == 0 ? 0 : Math.Log10((sectors[s] / members[s] / mean) + 1e-3);
        }

        var deviation = Math.Sqrt(Math.Max(spread / 2, 1e-300));
        Span<double> told = stackalloc double[6];
        for (var q = 0; q < told.Length; q++)
        {
            told[q] = Math.Sqrt((re[q] * re[q]) + (im[q] * im[q])) / deviation;
        }

        for (var q = 0; q < 2; q++)
        {
            (parts[2 * q], parts[(2 * q) + 1]) = (2 * re[q] / powers.Length, 2 * im[q] / powers.Length);
        }

        (plain[0], plain[1], plain[2]) = (Math.Log10(told[0] + LeastTold), Math.Log10(told[1] + LeastTold), Math.Log10(told[2] + LeastTold));
        (plain[3], plain[4]) = (Math.Log10(Math.Max(told[3], told[5]) + LeastTold), Math.Log10(told[4] + LeastTold));
    }
}
