using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>One window looked at closely: its samples along the line of action, its harmonics and its path, for plots. Pure; fitted as the meter fits it.</summary>
public sealed class WindowPortrait
{
    private readonly MeterSettings settings;
    private readonly IWindowHarmonics fit;
    private readonly double[] places;
    private readonly DisplacementPath path;
    private readonly double[] along;
    private readonly double[] residual;

    private WindowPortrait(MeterSettings settings, IWindowHarmonics fit, DisplacementPath path, double driveHz, double[][] samples, double[] places)
    {
        (this.settings, this.fit, this.path, DriveHz, this.places) = (settings, fit, path, driveHz, places);
        along = new double[fit.Count];
        residual = new double[fit.Count];
        for (var n = 0; n < along.Length; n++)
        {
            for (var a = 0; a < fit.Axes; a++)
            {
                along[n] += path.Direction[a] * (samples[a][n] - fit.Cosine(a)[0]);
            }

            residual[n] = along[n] - AccelerationAt(CyclesAt(n));
        }
    }

    /// <summary>Gets the true drive frequency in Hz.</summary>
    public double DriveHz { get; }

    /// <summary>Gets the highest order fitted.</summary>
    public int Orders => fit.Orders;

    /// <summary>Gets the peak-to-peak displacement of the whole waveform along the line of action, in metres.</summary>
    public double StrokeMetres => path.PeakToPeak;

    /// <summary>Gets the acceleration along the line of action sample by sample, without its constant part (gravity), in m/s².</summary>
    public IReadOnlyList<double> Samples => along;

    /// <summary>Gets the line of action in the sensor's axes; a single axis aslant to a given line carries one over its cosine.</summary>
    public IReadOnlyList<double> Direction => path.Direction.ToArray();

    /// <summary>Gets the first order of those in which a strike is listened for; null where the sampling rate is too low to tell.</summary>
    public int? FirstStrikeOrder => StrikeDetector.FirstOrder(fit.Frequency, settings.RateHz);

    /// <summary>Gets the standard deviation that noise gives to each of an order's two coefficients along the line of action, in m/s².</summary>
    public double NoiseDeviation => fit.ResidualDeviation * Math.Sqrt(path.Direction.ToArray().Sum(value => value * value)) * Math.Sqrt(fit.CoefficientShare);

    /// <summary>Gives the channel of an axis; null where the capture has none.</summary>
    public int? Channel(Axis axis)
    {
        for (var a = 0; a < settings.Axes.Count; a++)
        {
            if (settings.Axes[a] == axis)
            {
                return a;
            }
        }

        return null;
    }

    /// <summary>Gives the place of a sample in cycles of the drive, counted from the middle of the window.</summary>
    public double CyclesAt(int sample) => fit.Frequency * places[sample];

    /// <summary>Gives the fitted acceleration along the line of action, in m/s².</summary>
    /// <param name="cycles">Place in cycles from the middle of the window.</param>
    public double AccelerationAt(double cycles) => AccelerationAt(cycles, 1, fit.Orders);

    /// <summary>Gives the part of some orders in the fitted acceleration along the line of action, in m/s².</summary>
    /// <param name="cycles">Place in cycles from the middle of the window.</param>
    /// <param name="first">First order, 1 or more.</param>
    /// <param name="last">Last order, at most <see cref="Orders"/>.</param>
    public double AccelerationAt(double cycles, int first, int last)
    {
        var sum = 0.0;
        for (var k = first; k <= last; k++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * k * cycles);
            sum += path.LineCosine[k] * cos + path.LineSine[k] * sin;
        }

        return sum;
    }

    /// <summary>Gives the displacement of a channel from its mean, in metres: Xₖ = −Aₖ/(2πkf)² order by order.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="cycles">Place in cycles from the middle of the window.</param>
    public double DisplacementAt(int channel, double cycles) => DisplacementAt(channel, cycles, fit.Orders);

    /// <summary>Gives the same of the lowest orders alone.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="cycles">Place in cycles from the middle of the window.</param>
    /// <param name="last">Last order, 1 to <see cref="Orders"/>: with 1 the fundamental's ellipse.</param>
    public double DisplacementAt(int channel, double cycles, int last)
    {
        var sum = 0.0;
        for (var k = 1; k <= last; k++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * k * cycles);
            sum -= (fit.Cosine(channel)[k] * cos + fit.Sine(channel)[k] * sin) / ((double)k * k);
        }

        var omega = 2 * Math.PI * DriveHz;
        return sum / (omega * omega);
    }

    /// <summary>Gives the amplitude of acceleration along the line of action at a whole order of the drive, 1 to <see cref="Orders"/>, in m/s².</summary>
    public double Amplitude(int order) =>
        Math.Sqrt(path.LineCosine[order] * path.LineCosine[order] + path.LineSine[order] * path.LineSine[order]);

    /// <summary>Gives the amplitude between the whole orders, from what the fit leaves over, in m/s²; a contact in every second or third cycle shows at halves or thirds.</summary>
    public double AmplitudeBetween(double order)
    {
        double re = 0, im = 0;
        for (var n = 0; n < residual.Length; n++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * order * CyclesAt(n));
            re += residual[n] * cos;
            im += residual[n] * sin;
        }

        return 2 * Math.Sqrt(re * re + im * im) / residual.Length;
    }

    /// <summary>Looks at a window; null where it cannot be fitted.</summary>
    /// <param name="settings">What the meter knew.</param>
    /// <param name="samples">The window's samples in m/s², one array a channel, all of one length.</param>
    /// <param name="cyclesPerSample">The drive frequency that the meter found, in cycles a sample.</param>
    /// <param name="times">The samples' own times in seconds where the meter used them; empty where it took them as evenly spaced.</param>
    public static WindowPortrait? Take(MeterSettings settings, double[][] samples, double cyclesPerSample, ReadOnlySpan<double> times = default)
    {
        var line = new LineOfAction(settings.Axes, settings.LineAngleDegrees);
        if (line.Impossible is not null || samples.Length != settings.Axes.Count || !(cyclesPerSample > 0))
        {
            return null;
        }

        var largest = Math.Clamp((int)(OrderChoice.Share(settings.RateHz) * settings.RateHz / settings.NominalHz), 1, WindowAnalysis.MostOrders);
        var orders = Math.Max(1, (int)(OrderChoice.Share(settings.RateHz) / cyclesPerSample));
        var places = new double[samples[0].Length];
        if (!SamplePlaces.Of(times, settings.StampRateHz ?? settings.RateHz, places))
        {
            SamplePlaces.Even(places);
            times = default;
        }

        // The meter is content with a phase off by a thousandth of a cycle at the window's ends; a drawing of high orders there is not.
        IWindowHarmonics fit;
        if (times.IsEmpty)
        {
            var even = new HarmonicFit(samples.Length, largest);
            fit = even;
            if (!even.Fit(samples, 0, places.Length, cyclesPerSample, orders, follow: true)
                || !even.Fit(samples, 0, places.Length, even.MeasuredFrequency, orders, follow: true))
            {
                return null;
            }
        }
        else
        {
            var timed = new TimedHarmonicFit(samples.Length, largest);
            fit = timed;
            if (!timed.Fit(samples, 0, places, cyclesPerSample, orders, follow: true)
                || !timed.Fit(samples, 0, places, timed.MeasuredFrequency, orders, follow: true))
            {
                return null;
            }
        }

        var path = new DisplacementPath(samples.Length, largest);
        var driveHz = settings.FreeDrive ? fit.MeasuredFrequency * settings.RateHz * (1 + (settings.StampClockError ?? 0)) : settings.NominalHz;
        path.Work(fit, driveHz, line.Given);
        return new(settings, fit, path, driveHz, samples, places);
    }
}
