using System.Numerics;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Drive;
using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Quality;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement;

/// <summary>Measures the stroke, window by window of whole cycles, from the blocks of one source. Pure: no clock, no I/O; nothing is allocated a sample or a window.</summary>
public sealed class StrokeMeter
{
    private const double WindowSeconds = 0.5;
    private const int FewestCycles = 10;
    private const int MostOrders = 40;
    private const double HighestShare = 0.45;
    private const double SearchSpan = 0.10;
    private const double NoisyShare = 0.05;
    private const double LeastAlong = 0.02;

    private readonly MeterSettings settings;
    private readonly WindowBuffer buffer;
    private readonly LineScan scan = new();
    private readonly HarmonicFit fit;
    private readonly DisplacementPath path;
    private readonly MotionTracker motion;
    private readonly StrikeDetector strike = new();
    private readonly DecayCatcher decay;
    private readonly double[] line;
    private readonly double[] given;
    private readonly string? impossible;
    private readonly int cycles;
    private double tracked;

    /// <summary>Makes a meter for a source.</summary>
    public StrokeMeter(MeterSettings settings)
    {
        this.settings = settings;
        var axes = settings.Axes.Count;
        var nominal = settings.NominalHz / settings.RateHz;
        cycles = Math.Max(FewestCycles, (int)Math.Round(WindowSeconds * settings.NominalHz));
        var longest = (int)Math.Ceiling(cycles / (nominal * LowestShare)) + 2;
        buffer = new(axes, 3 * longest);
        line = new double[longest];
        var orders = Math.Clamp((int)(HighestShare / nominal), 1, MostOrders);
        fit = new(axes, orders);
        path = new(axes, orders);
        motion = new(settings.StillBelowMetres, settings.SettleSeconds);
        decay = new(settings.RateHz, settings.NominalHz);
        given = GivenLine(settings, out impossible);
        if (nominal * (1 + SearchSpan) > HighestShare)
        {
            impossible = "the sampling rate is too low for the drive frequency: at least 2.5 samples a cycle are needed";
        }
    }

    private double LowestShare => settings.FreeDrive ? 0.5 : 1 - SearchSpan;

    private double HighestFrequencyShare => settings.FreeDrive ? 1.5 : 1 + SearchSpan;

    /// <summary>Takes a block and gives the windows that it completes.</summary>
    public void Add(SampleBlock block, IWindowSink sink)
    {
        if (block.GapBefore)
        {
            Gap(block.StartSeconds, sink);
        }

        for (var offset = 0; offset < block.Count;)
        {
            offset += buffer.Append(block, offset, settings.RateHz);
            while (buffer.Count >= Needed())
            {
                Measure(cycles, sink);
            }
        }
    }

    /// <summary>Gives what is left when there will be no more samples: a last, shorter window, and a decay cut short.</summary>
    public void Finish(IWindowSink sink)
    {
        Shorter(sink);
        buffer.Discard(buffer.Count);
        EndDecay(sink);
    }

    /// <summary>Says that samples are missing up to a time, without waiting for the next block.</summary>
    public void Gap(double resumeSeconds, IWindowSink sink)
    {
        Shorter(sink);
        var start = buffer.SecondsAt(0, settings.RateHz);
        buffer.Discard(buffer.Count);
        EndDecay(sink);
        if (resumeSeconds - start > 2)
        {
            motion.Forget();
        }

        sink.Window(new()
        {
            StartSeconds = start,
            LengthSeconds = Math.Max(0, resumeSeconds - start),
            Quality = WindowQuality.Gap,
            Motion = MotionState.Unknown,
            Reason = "samples are missing",
        });
    }

    private static double[] GivenLine(MeterSettings settings, out string? impossible)
    {
        impossible = null;
        if (settings.LineAngleDegrees is not { } degrees)
        {
            return [];
        }

        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        var direction = settings.Axes.Select(axis => axis switch { Axis.X => cos, Axis.Z => sin, _ => 0.0 }).ToArray();
        var along = direction.Sum(value => value * value);
        if (along < LeastAlong)
        {
            impossible = "the sensor's axes stand square to the given line of action";
            return direction;
        }

        // The least-squares motion along the line, from the axes there are: one axis alone is divided by its cosine.
        return [.. direction.Select(value => value / along)];
    }

    private double Nominal => settings.NominalHz / settings.RateHz;

    private int Needed() => (int)Math.Ceiling(cycles / (tracked > 0 ? tracked : Nominal * LowestShare)) + 1;

    private void Shorter(IWindowSink sink)
    {
        for (var left = WholeCyclesLeft(); left >= FewestCycles; left = WholeCyclesLeft())
        {
            Measure(Math.Min(left, cycles), sink);
        }
    }

    private int WholeCyclesLeft() =>
        (int)Math.Floor((buffer.Count - 1) * (tracked > 0 ? tracked : Nominal / (1 + SearchSpan)));

    private void Measure(int whole, IWindowSink sink)
    {
        var scanned = Math.Min(buffer.Count, (int)(whole / Nominal));
        var frequency = tracked > 0
            ? tracked
            : Math.Clamp(
                scan.Find(buffer.Axes, buffer.First, scanned, Nominal * LowestShare, Nominal * HighestFrequencyShare, settings.FreeDrive),
                Nominal * LowestShare,
                Nominal * HighestFrequencyShare);
        var count = Math.Min(buffer.Count, (int)Math.Round(whole / frequency));
        var reading = Window(count, frequency);
        sink.Window(reading);
        Follow(reading, count, sink);
        buffer.Discard(count);
    }

    private WindowReading Window(int count, double frequency)
    {
        var start = buffer.SecondsAt(0, settings.RateHz);
        var length = count / settings.RateHz;
        var reading = new WindowReading { StartSeconds = start, LengthSeconds = length, Quality = WindowQuality.Noisy, Motion = MotionState.Unknown };
        if (impossible is not null)
        {
            return reading with { Reason = impossible };
        }

        if (IsStuck(count))
        {
            return reading with { Reason = "the sensor gives the same value again and again" };
        }

        var clipped = ClipDetector.Count(buffer.Axes, buffer.Marks(count), buffer.First, settings.FullScale, frequency);
        var orders = Math.Max(1, (int)(HighestShare / frequency));
        var solved = fit.Fit(buffer.Axes, buffer.First, count, frequency, orders, follow: true);
        if (!solved || !InRange(fit.MeasuredFrequency))
        {
            // No line near the drive holds the fit: look at the frequency where it should be.
            solved = fit.Fit(buffer.Axes, buffer.First, count, InRange(frequency) ? frequency : Nominal, orders, follow: false);
        }

        if (!solved)
        {
            return reading with { Reason = "the window could not be fitted" };
        }

        return Read(reading, count, clipped);
    }

    /// <summary>Says whether no axis moves by a single step: a tray at rest still has the sensor's noise, a dead sensor has none.</summary>
    private bool IsStuck(int count)
    {
        foreach (var axis in buffer.Axes)
        {
            if (axis.AsSpan(buffer.First, count).ContainsAnyExcept(axis[buffer.First]))
            {
                return false;
            }
        }

        return true;
    }

    private bool InRange(double frequency) => frequency > Nominal * LowestShare && frequency < Nominal * HighestFrequencyShare;

    private WindowReading Read(WindowReading reading, int count, int clipped)
    {
        var driveHz = settings.FreeDrive ? fit.MeasuredFrequency * settings.RateHz : settings.NominalHz;
        path.Work(fit, driveHz, given);
        Project(count);
        var omega = 2 * Math.PI * driveHz;
        var noise = 2 * fit.ResidualDeviation * Norm() * Math.Sqrt(2.0 / count) / (omega * omega);
        var steady = TrackMotion(reading.StartSeconds, reading.LengthSeconds, omega, noise);
        reading = reading with { Motion = motion.State, ClippedSamples = clipped };
        if (motion.State == MotionState.Stopped)
        {
            var hidden = path.PeakToPeak + 2 * noise > settings.StillBelowMetres;
            return reading with
            {
                Quality = clipped > 0 ? WindowQuality.Clipped : hidden ? WindowQuality.Noisy : steady ? WindowQuality.Good : WindowQuality.Transient,
                Reason = clipped > 0 ? "samples stand at the sensor's rail"
                    : hidden ? "other vibration hides whether the tray moves" : motion.Reason ?? "the tray stands still",
            };
        }

        var contributions = settings.Contributions.Combined * path.PeakToPeak;
        reading = reading with
        {
            FrequencyHz = driveHz,
            ClockError = settings.FreeDrive ? null : settings.NominalHz / (fit.MeasuredFrequency * settings.RateHz) - 1,
            StrokeMetres = path.PeakToPeak,
            FundamentalMetres = path.FundamentalPeakToPeak,
            NoiseMetres = noise,
            UncertaintyMetres = 2 * Math.Sqrt(contributions * contributions + noise * noise),
            LineAngleDegrees = Angle(),
            EllipseRatio = fit.Axes > 1 ? path.EllipseRatio : null,
            Quality = WindowQuality.Good,
        };
        if (clipped > 0)
        {
            return reading with
            {
                Quality = WindowQuality.Clipped,
                StrokeMetres = null,
                FundamentalMetres = null,
                UncertaintyMetres = null,
                NoiseMetres = null,
                Reason = "samples stand at the sensor's rail",
            };
        }

        if (!steady)
        {
            return reading with { Quality = WindowQuality.Transient, Reason = motion.Reason };
        }

        if (2 * noise > NoisyShare * path.PeakToPeak)
        {
            return reading with { Quality = WindowQuality.Noisy, Reason = "other vibration or noise hides the stroke" };
        }

        var score = strike.Judge(line.AsSpan(0, count), fit, path, settings.RateHz);
        return reading with { StrikeScore = score, Strike = score >= 1 };
    }

    private void Follow(in WindowReading reading, int count, IWindowSink sink)
    {
        if (reading.Motion == MotionState.Unknown)
        {
            return;
        }

        if (reading.Motion is MotionState.Running or MotionState.Starting && reading.Quality != WindowQuality.Noisy && InRange(fit.MeasuredFrequency))
        {
            tracked = fit.MeasuredFrequency;
        }
        else if (settings.FreeDrive && reading.Motion == MotionState.Stopped)
        {
            tracked = 0;
        }

        if (reading.Motion == MotionState.CoastingDown && !decay.Active)
        {
            decay.Begin(reading.StartSeconds);
        }

        if (decay.Active)
        {
            if (reading.Motion is MotionState.Starting or MotionState.Running)
            {
                decay.Abandon();
                return;
            }

            decay.Take(line.AsSpan(0, count));
            if (reading.Motion == MotionState.Stopped)
            {
                EndDecay(sink);
            }
        }
    }

    private void EndDecay(IWindowSink sink)
    {
        if (decay.Active && decay.Finish(settings.FreeDrive || tracked <= 0 ? 0 : Nominal / tracked - 1) is { } found)
        {
            sink.Decay(found);
        }
    }

    private bool TrackMotion(double start, double length, double omega, double noise)
    {
        Span<Complex> parts = stackalloc Complex[HarmonicFit.Parts];
        for (var part = 0; part < parts.Length; part++)
        {
            double re = 0, im = 0;
            for (var a = 0; a < fit.Axes; a++)
            {
                var (c, s) = fit.Part(a, part);
                re += path.Direction[a] * c;
                im += path.Direction[a] * s;
            }

            parts[part] = new Complex(re, im) * (2 / (omega * omega));
        }

        return motion.Take(parts, noise * Math.Sqrt(HarmonicFit.Parts), start, length);
    }

    private void Project(int count)
    {
        var target = line.AsSpan(0, count);
        target.Clear();
        for (var a = 0; a < fit.Axes; a++)
        {
            var weight = path.Direction[a];
            var source = buffer.Axes[a].AsSpan(buffer.First, count);
            for (var n = 0; n < count; n++)
            {
                target[n] += weight * source[n];
            }
        }
    }

    private double Norm()
    {
        var square = 0.0;
        foreach (var value in path.Direction)
        {
            square += value * value;
        }

        return Math.Sqrt(square);
    }

    private double? Angle()
    {
        if (settings.LineAngleDegrees is { } degrees)
        {
            return degrees;
        }

        double x = 0, z = 0;
        for (var a = 0; a < fit.Axes; a++)
        {
            x = settings.Axes[a] == Axis.X ? path.Direction[a] : x;
            z = settings.Axes[a] == Axis.Z ? path.Direction[a] : z;
        }

        return fit.Axes < 2 ? null : Math.Atan2(x < 0 ? -z : z, Math.Abs(x)) * 180 / Math.PI;
    }
}
