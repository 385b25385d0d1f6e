namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// The path of the tray in space, from the harmonics of acceleration by omega arithmetic (Xₖ = −Aₖ/(2πkf)²), its line of action and its extent along it.
/// </summary>
internal sealed class DisplacementPath(int axes, int largestOrder)
{
    private readonly double[] lineCosine = new double[largestOrder + 1];
    private readonly double[] lineSine = new double[largestOrder + 1];
    private readonly double[] waveCosine = new double[largestOrder + 1];
    private readonly double[] waveSine = new double[largestOrder + 1];
    private readonly double[] overSquare = [.. Enumerable.Range(0, largestOrder + 1).Select(k => 1.0 / Math.Max(1, k * k))];
    private readonly double[][] displaced = [.. Enumerable.Range(0, axes).Select(_ => new double[2 * largestOrder])];
    private readonly CycleWave wave = new();
    private readonly double[] direction = new double[axes];

    /// <summary>Gets the line of action as a unit vector in the sensor's axes.</summary>
    public ReadOnlySpan<double> Direction => direction;

    /// <summary>Gets the peak-to-peak displacement of the whole waveform along the line of action, in metres.</summary>
    public double PeakToPeak { get; private set; }

    /// <summary>Gets the peak-to-peak displacement of the fundamental along the line of action, in metres.</summary>
    public double FundamentalPeakToPeak { get; private set; }

    /// <summary>Gets the minor over the major axis of the fundamental's ellipse.</summary>
    public double EllipseRatio { get; private set; }

    /// <summary>Gets the cosine coefficients of acceleration along the line of action, in m/s².</summary>
    public ReadOnlySpan<double> LineCosine => lineCosine;

    /// <summary>Gets the sine coefficients of acceleration along the line of action, in m/s².</summary>
    public ReadOnlySpan<double> LineSine => lineSine;

    /// <summary>Gets the harmonics along the line of action with that line, to be looked at until the next window.</summary>
    public LineHarmonics Line => new(lineCosine, lineSine, direction);

    /// <summary>Works the path out.</summary>
    /// <param name="fit">The fitted harmonics of acceleration, in m/s².</param>
    /// <param name="driveHz">The true drive frequency in Hz.</param>
    /// <param name="given">A given line of action, unit vector in the sensor's axes; empty where the vibration itself tells.</param>
    /// <param name="gains">What each order is raised by, index 0 unused; empty where none is.</param>
    public void Work(IWindowHarmonics fit, double driveHz, ReadOnlySpan<double> given, ReadOnlySpan<double> gains = default)
    {
        var omega = 2 * Math.PI * driveHz;
        if (given.IsEmpty)
        {
            PrincipalLine(fit);
        }
        else
        {
            given.CopyTo(direction);
        }

        lineCosine.AsSpan(0, fit.Orders + 1).Clear();
        lineSine.AsSpan(0, fit.Orders + 1).Clear();
        for (var a = 0; a < axes; a++)
        {
            Lanes.AddWeighted(fit.Cosine(a)[..(fit.Orders + 1)], direction[a], lineCosine);
            Lanes.AddWeighted(fit.Sine(a)[..(fit.Orders + 1)], direction[a], lineSine);
        }

        for (var k = 1; k <= fit.Orders && !gains.IsEmpty; k++)
        {
            lineCosine[k] *= gains[k];
            lineSine[k] *= gains[k];
        }

        FundamentalPeakToPeak = 2 * Math.Sqrt(lineCosine[1] * lineCosine[1] + lineSine[1] * lineSine[1]) / (omega * omega);
        PeakToPeak = Extent(fit.Orders) / (omega * omega);
        EllipseRatio = Ellipse(fit);
    }

    /// <summary>Says whether an order's amplitude along the line of action is four times its noise or more.</summary>
    /// <param name="order">Order.</param>
    /// <param name="noise">Standard deviation of one coefficient by noise, in m/s².</param>
    public bool StandsOut(int order, double noise) =>
        lineCosine[order] * lineCosine[order] + lineSine[order] * lineSine[order] > 16 * noise * noise;

    /// <summary>Gives the extent in metres of a motion along a line from its harmonics of acceleration, index 0 being unused.</summary>
    /// <param name="cosine">Cosine coefficients in m/s².</param>
    /// <param name="sine">Sine coefficients in m/s².</param>
    /// <param name="omega">Angular frequency of the drive in rad/s.</param>
    public double ExtentOf(ReadOnlySpan<double> cosine, ReadOnlySpan<double> sine, double omega)
    {
        cosine.CopyTo(lineCosine);
        sine.CopyTo(lineSine);
        return Extent(cosine.Length - 1) / (omega * omega);
    }

    /// <summary>Takes the direction in which the path, weighed by displacement, spreads most.</summary>
    private void PrincipalLine(IWindowHarmonics fit)
    {
        Span<double> spread = stackalloc double[axes * axes];
        var orders = fit.Orders;
        for (var i = 0; i < axes; i++)
        {
            Lanes.Multiply(fit.Cosine(i).Slice(1, orders), overSquare.AsSpan(1), displaced[i]);
            Lanes.Multiply(fit.Sine(i).Slice(1, orders), overSquare.AsSpan(1), displaced[i].AsSpan(orders));
            for (var j = 0; j <= i; j++)
            {
                spread[i * axes + j] = spread[j * axes + i] = Lanes.Dot(displaced[i].AsSpan(0, 2 * orders), displaced[j].AsSpan(0, 2 * orders));
            }
        }

        LargestEigenvector.Find(spread, direction);
    }

    /// <summary>Gives the extent of the displacement waveform over one cycle, times ω².</summary>
    private double Extent(int orders)
    {
        for (var k = 1; k <= orders; k++)
        {
            (waveCosine[k], waveSine[k]) = (-lineCosine[k] * overSquare[k], -lineSine[k] * overSquare[k]);
        }

        return wave.Extent(waveCosine.AsSpan(0, orders + 1), waveSine.AsSpan(0, orders + 1));
    }

    private double Ellipse(IWindowHarmonics fit)
    {
        double cc = 0, ss = 0, cs = 0;
        for (var a = 0; a < axes; a++)
        {
            var (c, s) = (fit.Cosine(a)[1], fit.Sine(a)[1]);
            cc += c * c;
            ss += s * s;
            cs += c * s;
        }

        var root = Math.Sqrt((cc - ss) * (cc - ss) + 4 * cs * cs);
        var major = cc + ss + root;
        return major > 0 ? Math.Sqrt(Math.Max(0, cc + ss - root) / major) : 0;
    }
}
