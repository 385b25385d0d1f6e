using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>Follows the windows, collects the samples of each stop and each start, and hands them out to be read when the tray's own vibration has died away.</summary>
internal sealed class TransientCatcher(MeterSettings settings, IWindowAnalysis analysis)
{
    /// <summary>The drive's frequency must be known far better than the beat's: it is taken from so many windows after the start has died away.</summary>
    private const int SteadyWindows = 3;
    private readonly TransientSamples stop = new(settings.RateHz);
    private readonly TransientSamples start = new(settings.RateHz);
    private readonly double deviation = Deviation(settings);
    private double ranAt;
    private int countBefore, settled;
    private double startBefore;
    private MotionState before;
    private bool clipped;

    /// <summary>Takes the window that the analysis has just worked out.</summary>
    /// <param name="reading">The window.</param>
    /// <param name="count">Its number of samples.</param>
    /// <param name="tracked">Frequency of the drive in cycles a sample, 0 where it is not known.</param>
    /// <param name="sink">Hears what was found.</param>
    public void Take(in WindowReading reading, int count, double tracked, IWindowSink sink)
    {
        var motion = reading.Motion;

        // A window in which the drive comes or goes shows a frequency between its own and the tray's.
        var steady = motion == MotionState.Running && reading.Quality == WindowQuality.Good;
        ranAt = steady ? tracked : ranAt;
        if (start.Active && !steady && (settled > 0 || motion is MotionState.Stopped or MotionState.CoastingDown))
        {
            EndStart(sink);
        }

        settled = steady ? settled + 1 : 0;
        var fell = motion == MotionState.Stopped && before == MotionState.Running;
        Follow(stop, motion == MotionState.CoastingDown || fell, reading, count);
        Follow(start, motion == MotionState.Starting, reading, count);
        clipped |= reading.ClippedSamples > 0;
        if (stop.Active && motion is MotionState.Starting or MotionState.Running)
        {
            stop.End();
        }

        if (stop.Active && (motion == MotionState.Stopped || stop.Full))
        {
            EndStop(sink);
        }

        if (start.Active && settled >= SteadyWindows)
        {
            EndStart(sink);
        }

        (countBefore, startBefore, before) = (count, reading.StartSeconds, motion);
    }

    /// <summary>Reads what has been collected: there will be no more samples, or some are missing.</summary>
    public void Finish(IWindowSink sink)
    {
        EndStop(sink);
        EndStart(sink);
        countBefore = 0;
    }

    /// <summary>Forgets what has been collected: it cannot be told what the tray does.</summary>
    public void Abandon()
    {
        stop.End();
        start.End();
        countBefore = 0;
    }

    private void Follow(TransientSamples samples, bool begins, in WindowReading reading, int count)
    {
        if (!samples.Active && begins && !samples.Done)
        {
            samples.Begin(countBefore > 0 ? startBefore : reading.StartSeconds);
            samples.Take(analysis.LineBefore(countBefore), reading.Motion == MotionState.Starting ? Mean(analysis.Line(count)) - Mean(analysis.LineBefore(countBefore)) : 0);
            clipped = false;
        }

        samples.Done &= begins;
        if (samples.Active)
        {
            samples.Take(analysis.Line(count));
        }
    }

    /// <summary>Gives the mean: gravity's part along the line, which turns when the first motion shows where the line lies.</summary>
    private static double Mean(ReadOnlySpan<double> line)
    {
        var sum = 0.0;
        foreach (var value in line)
        {
            sum += value;
        }

        return line.IsEmpty ? 0 : sum / line.Length;
    }

    private static double Deviation(MeterSettings settings) =>
        0.5 * (settings.Stations.Count > 0 ? settings.Stations[0].Contributions : settings.Contributions).Items
            .Where(item => item.Name == StrokeContributions.Frequency).Sum(item => item.Relative);

    private Drive Drive => new(ranAt, settings.FreeDrive ? ranAt * settings.RateHz : settings.NominalHz, deviation) { Magnet = settings.Magnet };

    private void EndStop(IWindowSink sink)
    {
        if (stop.Active && ranAt > 0 && !clipped)
        {
            sink.Transient(new(TransientKind.Stop, stop.Copy(), Drive));
        }

        stop.End();
    }

    private void EndStart(IWindowSink sink)
    {
        if (start.Active && ranAt > 0)
        {
            if (clipped)
            {
                sink.Start(new(start.StartSeconds, null, "the sensor clips"));
            }
            else
            {
                sink.Transient(new(TransientKind.Start, start.Copy(), Drive));
            }
        }

        start.End();
    }
}
