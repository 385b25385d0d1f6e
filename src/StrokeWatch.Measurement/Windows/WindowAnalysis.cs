using System.Numerics;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Quality;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Windows;

/// <summary>Works one window out: quality, motion, stroke with uncertainty, and strike.</summary>
internal sealed class WindowAnalysis : IWindowAnalysis
{
    internal const int MostOrders = 40;
    internal const double HighestShare = 0.45;
    private const double NoisyShare = 0.05;
    private const string AtRail = "samples stand at the sensor's rail";

    private readonly MeterSettings settings;
    private readonly WindowFitter fitter;
    private readonly DisplacementPath path;
    private readonly MotionTracker motion;
    private readonly PartPhases phases = new();
    private readonly WindowEar ear;
    private readonly Impacts.StrikeMemory memory;
    private readonly ClipDetector clips;
    private readonly LineAside? aside;
    private readonly LeastStroke least;
    private readonly OrientationTally tally;
    private readonly JitterGiveBack jitter;
    private readonly double[] ran;
    private readonly LineOfAction lineOfAction;
    private readonly string? impossible;
    private double[] line, before;
    private double measured;
    private bool hasRun;

    /// <summary>Makes the analysis for windows up to a number of samples.</summary>
    public WindowAnalysis(MeterSettings settings, int longest)
    {
        this.settings = settings;
        lineOfAction = new(settings.Axes, settings.LineAngleDegrees);
        var nominal = settings.NominalHz / settings.RateHz;
        var orders = Math.Clamp((int)(OrderChoice.Share(settings.RateHz) / nominal), 1, MostOrders);
        (fitter, path) = (new(settings.Axes.Count, orders, longest, settings.StampRateHz ?? settings.RateHz, settings.StampsSpread), new(settings.Axes.Count, orders));
        (ear, memory, clips, least) = (new(settings.Blows), new(settings.Blows), new(settings.Axes.Count), new(settings.Axes.Count));
        (motion, aside) = (new(settings.StillBelowMetres, settings.SettleSeconds), settings.FullScale is null && settings.Axes.Count > 1 ? new() : null);
        (line, before, ran, tally, jitter) = (new double[longest], new double[longest], new double[settings.Axes.Count], new(settings.Axes), new(settings, longest, orders));
        impossible = nominal * settings.HighestShareOfNominal > HighestShare
            ? "the sampling rate is too low for the drive frequency: at least 2.5 samples a cycle are needed"
            : lineOfAction.Impossible;
    }

    /// <inheritdoc/>
    public OrientationTally? Orientation => tally;

    /// <inheritdoc/>
    public JitterReading? Jitter => jitter.Read();

    /// <summary>Gets what the feeder does.</summary>
    public MotionState Motion => motion.State;

    /// <inheritdoc/>
    public double MeasuredFrequency => Fit.MeasuredFrequency;

    /// <summary>Gets the harmonics of the last window.</summary>
    public IWindowHarmonics Fit => fitter.Harmonics;

    /// <summary>Gets the path of the last window.</summary>
    public DisplacementPath Path => path;

    /// <summary>Gets the factor from the last window's fitted amplitudes to the true ones, for a drive that changes its speed.</summary>
    public double Smear => phases.Smear;

    /// <inheritdoc/>
    public ReadOnlySpan<double> Line(int count) => line.AsSpan(0, count);

    /// <inheritdoc/>
    public ReadOnlySpan<double> LineBefore(int count) => before.AsSpan(0, count);

    /// <inheritdoc/>
    public ReadOnlySpan<double> Places(int count) => fitter.Places(count);

    /// <inheritdoc/>
    public void Forget() => motion.Forget();

    /// <inheritdoc/>
    public bool InRange(double frequency) =>
        frequency * settings.RateHz > settings.NominalHz * settings.LowestShareOfNominal
        && frequency * settings.RateHz < settings.NominalHz * settings.HighestShareOfNominal;

    /// <inheritdoc/>
    public void Tell(IWindowSink sink)
    {
    }

    /// <inheritdoc/>
    public WindowReading Read(WindowBuffer buffer, int count, double frequency)
    {
        var reading = Begin(buffer, count);
        if (reading.Reason is not null)
        {
            return reading;
        }

        var orders = Math.Max(1, (int)(OrderChoice.Share(settings.RateHz) / frequency));
        var solved = fitter.Follow(buffer, count, frequency, orders);
        if (!solved || !InRange(Fit.MeasuredFrequency))
        {
            // No line near the drive holds the fit: look at the frequency where it should be.
            var nominal = settings.NominalHz / settings.RateHz;
            solved = fitter.Fixed(buffer, count, InRange(frequency) ? frequency : nominal, orders);
        }

        measured = Fit.MeasuredFrequency;
        return End(reading, buffer, count, solved);
    }

    /// <summary>Works out the first samples of a buffer at the frequency of another sensor's fit, so that the two can be compared harmonic by harmonic.</summary>
    public WindowReading ReadBeside(WindowBuffer buffer, int count, WindowAnalysis other)
    {
        var reading = Begin(buffer, count);
        if (reading.Reason is not null)
        {
            return reading;
        }

        var solved = fitter.Beside(buffer, count, other.fitter);
        measured = other.measured;
        return End(reading, buffer, count, solved);
    }

    private WindowReading Begin(WindowBuffer buffer, int count) => Begin(buffer, count, DeadSensor.Shows(buffer, count));

    private WindowReading Begin(WindowBuffer buffer, int count, bool stuck) => new()
    {
        Stuck = stuck,
        StartSeconds = buffer.SecondsAt(0, settings.RateHz),
        LengthSeconds = count / settings.RateHz,
        Quality = WindowQuality.Noisy,
        Motion = MotionState.Unknown,
        Reason = impossible ?? (stuck ? "the sensor gives the same value again and again" : null),
    };

    private WindowReading End(in WindowReading reading, WindowBuffer buffer, int count, bool solved)
    {
        if (!solved)
        {
            return reading with { Reason = "the window could not be fitted" };
        }

        return Judge(reading with { ClippedSamples = clips.Count(buffer.Axes, buffer.Marks(count), buffer.First, settings.FullScale, Fit) }, buffer, count);
    }

    private WindowReading Judge(WindowReading reading, WindowBuffer buffer, int count)
    {
        var driveHz = settings.FreeDrive ? measured * settings.RateHz * (1 + (settings.StampClockError ?? 0)) : settings.NominalHz;
        var omega = 2 * Math.PI * driveHz;
        path.Work(Fit, driveHz, lineOfAction.Given);
        (line, before) = (before, line);
        lineOfAction.Project(buffer, count, path.Direction, line);
        var coefficientNoise = Fit.ResidualDeviation * lineOfAction.Norm(path.Direction) * Math.Sqrt(Fit.CoefficientShare);
        var noise = 2 * coefficientNoise / (omega * omega);
        jitter.Look(line.AsSpan(0, count), fitter.Places(count), Fit, path, coefficientNoise, omega);
        fitter.Even(line.AsSpan(0, count), path.Line);
        var steady = Follow(reading, omega, noise);
        reading = reading with { Motion = motion.State, Timed = fitter.Timed };
        Keep(buffer, count);
        aside?.Take(buffer, count, path.Direction, fitter, clips.Farthest, lineOfAction);
        if (motion.State == MotionState.Stopped)
        {
            var still = Still(reading, noise, steady);
            if (still.Quality == WindowQuality.Good)
            {
                tally.Rest(Fit);
            }

            return still;
        }

        // A drive that speeds up or slows down inside the window smears the fit; its parts tell by how much.
        var stroke = path.PeakToPeak * phases.Smear;
        var contributions = settings.Contributions.Combined * stroke;
        var uncertainty = 2 * Math.Sqrt(contributions * contributions + noise * noise);
        reading = reading with
        {
            FrequencyHz = driveHz,
            ClockError = settings.FreeDrive ? settings.StampClockError : settings.NominalHz / (measured * settings.RateHz) - 1,
            LineAngleDegrees = lineOfAction.AngleDegrees(path.Direction),
            EllipseRatio = Fit.Axes > 1 ? path.EllipseRatio : null,
        };
        if (reading.ClippedSamples > 0)
        {
            reading = reading with { Quality = WindowQuality.Clipped, Reason = AtRail, AtLeastMetres = Moving(AtLeast(buffer, omega, uncertainty)) };
            return clips.Doubtful && motion.Swings ? Listen(reading, count) : reading;
        }

        reading = reading with
        {
            Quality = WindowQuality.Good,
            StrokeMetres = stroke,
            FundamentalMetres = path.FundamentalPeakToPeak * phases.Smear,
            NoiseMetres = noise,
            UncertaintyMetres = uncertainty,
        };
        if (!steady)
        {
            reading = reading with { Quality = WindowQuality.Transient, Reason = motion.Reason };
            return motion.Swings ? Listen(reading, count) : reading;
        }

        if (phases.Broken)
        {
            return Listen(reading with { Quality = WindowQuality.Transient, Reason = "the sensor's clock or the drive's phase jumps within the window" }, count);
        }

        if (2 * noise > NoisyShare * stroke)
        {
            return Listen(reading with { Quality = WindowQuality.Noisy, Reason = "other vibration or noise hides the stroke" }, count);
        }

        if (clips.Undecided)
        {
            return Listen(reading.LeftOpen(Moving(Math.Min(path.FundamentalPeakToPeak * phases.Smear, stroke) - uncertainty)), count);
        }

        tally.Run(Fit, omega, lineOfAction.Given.IsEmpty ? path.Direction : default);
        reading = jitter.Apply(reading, Fit, path, lineOfAction.Given, coefficientNoise, omega, phases.Smear);
        return Listen(reading.Hiding(clips.Hidden), count, counts: true);
    }

    /// <summary>Listens for strikes: in a noisy, unsteady or broken window too, and where a rail is in doubt, for hard hammering hides the stroke and shakes it.</summary>
    private WindowReading Listen(in WindowReading reading, int count, bool counts = false)
    {
        if (settings.ListenLater is not { } later)
        {
            return memory.Compare(ear.Listen(reading, line.AsSpan(0, count), Fit, path.Line, settings.RateHz, counts), Fit, path.Line, settings.RateHz, ear.Heard, aside);
        }

        var kept = later.Next();
        kept.Keep(line.AsSpan(0, count), Fit, path.Line, settings.RateHz, counts, memory, aside);
        return reading with { Unheard = kept };
    }

    /// <summary>Keeps the line on which the tray runs; when it swings out, noise soon turns what a window shows, and the kept line stands.</summary>
    private void Keep(WindowBuffer buffer, int count)
    {
        if (motion.State is MotionState.Running or MotionState.Starting)
        {
            path.Direction.CopyTo(ran);
            hasRun = true;
        }
        else if (hasRun)
        {
            lineOfAction.Project(buffer, count, ran, line);
        }
    }

    private double? Moving(double bound) => bound > settings.StillBelowMetres ? bound : null;

    /// <summary>Gives the least that the tray moves: what cutting off peaks has left of the waveform, or more where the samples clear of the rails tell it.</summary>
    private double AtLeast(WindowBuffer buffer, double omega, double uncertainty)
    {
        var left = Math.Min(path.FundamentalPeakToPeak, path.PeakToPeak) * phases.Smear - uncertainty;
        return !fitter.Timed && least.Of(buffer.Axes, buffer.First, Fit, lineOfAction.Given) is { } carried
            ? Math.Max(left, carried / (omega * omega) * phases.Smear * (1 - 2 * settings.Contributions.Combined))
            : left;
    }

    private WindowReading Still(WindowReading reading, double noise, bool steady)
    {
        var hidden = path.PeakToPeak + 2 * noise > settings.StillBelowMetres;
        return reading.ClippedSamples > 0 ? reading with { Quality = WindowQuality.Clipped, Reason = AtRail }
            : hidden ? reading with { Quality = WindowQuality.Noisy, Reason = "other vibration hides whether the tray moves" }
            : reading with
            {
                Quality = steady ? WindowQuality.Good : WindowQuality.Transient,
                Reason = motion.Reason ?? "the tray stands still",
            };
    }

    /// <summary>Follows amplitude and phase through the parts of the window; true where it is steady.</summary>
    private bool Follow(in WindowReading reading, double omega, double noise)
    {
        Span<Complex> parts = stackalloc Complex[HarmonicFit.Parts];
        for (var part = 0; part < parts.Length; part++)
        {
            double re = 0, im = 0;
            for (var a = 0; a < Fit.Axes; a++)
            {
                var (c, s) = Fit.Part(a, part);
                re += path.Direction[a] * c;
                im += path.Direction[a] * s;
            }

            parts[part] = new Complex(re, im) * (2 / (omega * omega));
        }

        var partNoise = noise * Math.Sqrt(HarmonicFit.Parts);
        phases.Take(parts, partNoise, settings.FreeDrive);
        return motion.Take(parts, partNoise, reading.StartSeconds, reading.LengthSeconds);
    }
}
