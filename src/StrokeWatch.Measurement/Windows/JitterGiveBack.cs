using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Windows;

/// <summary>Gives back to the harmonics what sampling jitter took off, and carries in the uncertainty what it may have taken off unseen.</summary>
/// <remarks>
/// Where jitter stands out of the windows' residuals, each order that stands out itself is raised by exp((2πkfσₜ)²/2) (see <see cref="TimingJitter"/>).
/// Where it does not, the most that it may have taken off is carried as a rectangle.
/// </remarks>
internal sealed class JitterGiveBack(MeterSettings settings, int longest, int largestOrder)
{
    private const int EveryWindow = 8;
    private const int Interval = 16;

    /// <summary>Jitter that takes less than a hundred-thousandth off is neither looked for nor given back.</summary>
    private const double Negligible = 1e-5;

    /// <summary>An order that loses more than this exponent is not raised further: what is left of it is uncertain by itself.</summary>
    private const double LargestExponent = 1;

    private readonly JitterAverage average = new();
    private readonly DisplacementPath raised = new(settings.Axes.Count, largestOrder);
    private readonly double[] gains = new double[largestOrder + 1];
    private JitterRoom? room;
    private JitterWindow? pending;
    private double bound;
    private int passed;
    private double? seconds;
    private double? uncertainty;
    private int counted;
    private double corrections;
    private double relatives;

    /// <summary>Sums up; null where the jitter is stated, or no window counts.</summary>
    public JitterReading? Read() =>
        counted == 0 ? null : new(average.Clear ? seconds : null, average.Clear ? uncertainty : null, corrections / counted, relatives / counted);

    /// <summary>Looks at a window; <see cref="Apply"/> says later that it counts.</summary>
    /// <param name="line">The acceleration along the line of action at each sample.</param>
    /// <param name="places">The places of the samples; empty where they are evenly spaced.</param>
    /// <param name="fit">The fit.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="noise">Standard deviation of one of the line's coefficients by noise, the axes taken as independent.</param>
    /// <param name="omega">The drive's true angular frequency in rad/s.</param>
    public void Look(ReadOnlySpan<double> line, ReadOnlySpan<double> places, IWindowHarmonics fit, DisplacementPath path, double noise, double omega)
    {
        pending = null;
        noise = AlongLine(noise, fit);
        var power = path.LineCosine[1] * path.LineCosine[1] + path.LineSine[1] * path.LineSine[1];

        // The whole residual laid to jitter: it cannot have taken off more than this.
        bound = power > 0 ? noise * noise / fit.CoefficientShare / power : double.PositiveInfinity;
        if (settings.JitterStated || !(bound > Negligible) || (average.Count >= EveryWindow && passed++ % Interval != 0))
        {
            return;
        }

        pending = JitterWindow.Of(line, places, fit, path, noise, omega, room ??= new(longest));
    }

    /// <summary>Takes the window that was looked at into the average, and corrects its reading.</summary>
    /// <param name="reading">The reading of a window that counts.</param>
    /// <param name="fit">The fit.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="given">The given line of action; empty where the vibration itself tells.</param>
    /// <param name="noise">As in <see cref="Look"/>.</param>
    /// <param name="omega">The drive's true angular frequency in rad/s.</param>
    /// <param name="smear">The factor from the fitted amplitudes to the true ones for a drive that changes its speed.</param>
    public WindowReading Apply(
        in WindowReading reading, IWindowHarmonics fit, DisplacementPath path, ReadOnlySpan<double> given, double noise, double omega, double smear)
    {
        if (settings.JitterStated)
        {
            return reading;
        }

        if (pending is { } window)
        {
            average.Take(window);
            pending = null;
        }

        var half = 0.5 * omega * omega;
        var (stroke, fundamental) = (reading.StrokeMetres!.Value, reading.FundamentalMetres!.Value);
        double correction = 0, relative;
        if (average.Clear && bound > Negligible && half * average.Variance > Negligible)
        {
            relative = Gains(fit, path, AlongLine(noise, fit), omega);
            raised.Work(fit, omega / (2 * Math.PI), given, gains);
            (stroke, fundamental, correction) = (raised.PeakToPeak * smear, raised.FundamentalPeakToPeak * smear, gains[1] - 1);
        }
        else
        {
            var hidden = average.Count > 0 && bound > Negligible ? half * Math.Max(0, average.Variance + 2 * average.Deviation) : bound;
            relative = Uncertainty.Distributions.Rectangular(Math.Min(hidden, bound));
        }

        counted++;
        (corrections, relatives) = (corrections + correction, relatives + relative);
        var (known, timing, shown) = (settings.Contributions.Combined * stroke, relative * stroke, reading.NoiseMetres ?? 0);
        return reading with
        {
            StrokeMetres = stroke,
            FundamentalMetres = fundamental,
            UncertaintyMetres = 2 * Math.Sqrt(known * known + shown * shown + timing * timing),
        };
    }

    /// <summary>Gives the most that the coefficients along the line scatter: jitter moves all axes as one, and the mean of their residuals hides that.</summary>
    private static double AlongLine(double noise, IWindowHarmonics fit) => noise * Math.Sqrt(fit.Axes);

    /// <summary>Works out by how much each order is raised; gives the relative standard uncertainty that is left.</summary>
    private double Gains(IWindowHarmonics fit, DisplacementPath path, double noise, double omega)
    {
        // The regression reads (1 − exp(−ω²σₜ²))/ω² where the phase errors are no longer small; ω² as the orders weigh it.
        var (squares, weighed) = (0.0, 0.0);
        for (var k = 1; k <= fit.Orders; k++)
        {
            var size = k > 1 && !path.StandsOut(k, noise) ? 0 : path.LineCosine[k] * path.LineCosine[k] + path.LineSine[k] * path.LineSine[k];
            (squares, weighed) = (squares + size, weighed + size * k * k);
        }

        var wide = omega * omega * weighed / squares;
        var remains = Math.Max(0.1, 1 - wide * average.Variance);
        var variance = -Math.Log(remains) / wide;
        var half = 0.5 * omega * omega;
        seconds = Math.Sqrt(variance);
        uncertainty = average.Deviation / remains / (2 * seconds);
        for (var k = 1; k <= fit.Orders; k++)
        {
            gains[k] = k > 1 && !path.StandsOut(k, noise) ? 1 : Math.Exp(Math.Min(LargestExponent, half * k * k * variance));
        }

        return half * average.Deviation / remains;
    }
}
