using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Drive;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement;

/// <summary>Measures the stroke, window by window of whole cycles, from the blocks of one source. Pure: no clock, no I/O; nothing is allocated a sample or a window.</summary>
public sealed class StrokeMeter
{
    private const double WindowSeconds = 0.5;
    private const int FewestCycles = 10;

    /// <summary>A stretch between two gaps that has given no window yet is measured down to so many cycles: the noise that is stated grows as the window shrinks.</summary>
    private const int FewestBetweenGaps = 4;
    private const double ForgetAfterSeconds = 2;
    private const int LostWindows = 2;

    private readonly MeterSettings settings;
    private readonly WindowBuffer buffer;
    private readonly LineScan scan = new();
    private readonly IWindowAnalysis analysis;
    private readonly TransientCatcher transients;
    private readonly SupplyReader? supply;
    private readonly int cycles;
    private double tracked;
    private int lost;
    private long counting;
    private double hiddenCuts;
    private bool afterGap;
    private bool fresh = true;

    /// <summary>Makes a meter for a source.</summary>
    public StrokeMeter(MeterSettings settings)
    {
        this.settings = settings;
        cycles = Math.Max(FewestCycles, (int)Math.Round(WindowSeconds * settings.NominalHz));
        var longest = (int)Math.Ceiling(cycles / (Nominal * settings.LowestShareOfNominal)) + 2;
        buffer = new(settings.Axes.Count, 3 * longest);
        analysis = settings.Stations.Count > 0 ? new StationAnalysis(settings, longest) : new WindowAnalysis(settings, longest);
        transients = new(settings, analysis);
        supply = settings.Supply is { } channel ? new(channel, longest) : null;
    }

    /// <summary>Gets where gravity and the tray's motion stand in the sensor's axes, over the windows so far that count; null with several sensors.</summary>
    public OrientationTally? Orientation => analysis.Orientation;

    /// <summary>Gets the same for each of several sensors, in the order of the settings; empty with one.</summary>
    public IReadOnlyList<OrientationTally> Orientations => analysis.Orientations;

    /// <summary>Gets what unsteady sampling did over the windows that count; null where the settings state it, or no window counts.</summary>
    public Stroke.JitterReading? Jitter => analysis.Jitter;

    /// <summary>Gets the most that a cut which cannot be seen takes off the stroke, as a share of it, the mean over the windows that count; 0 where the range is stated or none counts.</summary>
    public double HiddenCut => counting == 0 ? 0 : hiddenCuts / counting;

    private double Nominal => settings.NominalHz / settings.RateHz;

    /// <summary>Takes a block and gives the windows that it completes.</summary>
    public void Add(SampleBlock block, IWindowSink sink)
    {
        if (block.GapBefore)
        {
            Gap(block.StartSeconds, sink);
        }

        for (var offset = 0; offset < block.Count;)
        {
            offset += buffer.Append(block, offset, Math.Max(1, Needed() - buffer.Count), settings.RateHz);
            while (buffer.Count >= Needed())
            {
                Measure(cycles, sink);
            }
        }
    }

    /// <summary>Gives what is left when there will be no more samples: a last, shorter window, and a decay cut short.</summary>
    public void Finish(IWindowSink sink)
    {
        Shorter(sink, besideGap: afterGap);
        buffer.Discard(buffer.Count);
        transients.Finish(sink);
    }

    /// <summary>Measures what is there without waiting for a whole window; the samples after it may still follow without a gap.</summary>
    public void Flush(IWindowSink sink) => Shorter(sink, besideGap: false);

    /// <summary>Says that samples are missing up to a time; what came before them is measured, the rest is a window of its own without a stroke.</summary>
    public void Gap(double resumeSeconds, IWindowSink sink)
    {
        Shorter(sink, besideGap: true);
        (afterGap, fresh) = (true, true);
        var start = buffer.SecondsAt(0, settings.RateHz);
        buffer.Discard(buffer.Count);
        transients.Finish(sink);
        if (resumeSeconds - start > ForgetAfterSeconds)
        {
            analysis.Forget();
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

    private int Needed() => (int)Math.Ceiling(cycles / (tracked > 0 ? tracked : Nominal * settings.LowestShareOfNominal)) + 1;

    private void Shorter(IWindowSink sink, bool besideGap)
    {
        for (var left = WholeCyclesLeft(besideGap); left >= (besideGap && fresh ? FewestBetweenGaps : FewestCycles); left = WholeCyclesLeft(besideGap))
        {
            Measure(Math.Min(left, cycles), sink);
        }
    }

    private int WholeCyclesLeft(bool besideGap)
    {
        // Between gaps there is no time to wait for cycles at the lowest frequency that a drive may have: the stretch itself shows how many it holds.
        var frequency = tracked > 0 ? tracked
            : besideGap && fresh && buffer.Count * Nominal >= FewestBetweenGaps ? Scan(buffer.Count * Nominal)
            : Nominal * settings.LowestShareOfNominal;
        return (int)Math.Floor((buffer.Count - 1) * frequency);
    }

    private void Measure(int whole, IWindowSink sink)
    {
        // A start may have been taken for the drive: what has given nothing but noise is looked for anew.
        var frequency = tracked > 0 && lost < LostWindows ? tracked : Scan(whole);
        lost = lost < LostWindows ? lost : 0;
        var count = Math.Min(buffer.Count, (int)Math.Round(whole / frequency));
        var reading = WithSupply(analysis.Read(buffer, count, frequency), count, frequency);
        (counting, hiddenCuts) = reading is { Quality: WindowQuality.Good, StrokeMetres: not null } ? (counting + 1, hiddenCuts + reading.HiddenCut) : (counting, hiddenCuts);
        analysis.Tell(sink);
        sink.Window(reading);
        Follow(reading, count, sink);
        buffer.Discard(count);
        fresh = false;
    }

    private WindowReading WithSupply(in WindowReading reading, int count, double frequency)
    {
        if (supply is null)
        {
            return reading;
        }

        var steady = reading is { Quality: WindowQuality.Good, Motion: MotionState.Running };
        var known = reading.StrokeMetres is not null && analysis.InRange(analysis.MeasuredFrequency) ? analysis.MeasuredFrequency : frequency;
        return reading with
        {
            Supply = supply.Read(buffer.Supply(count), steady ? analysis.Places(count) : default, steady ? analysis.Line(count) : default, known, settings.RateHz),
        };
    }

    private double Scan(double whole)
    {
        var (low, high) = (Nominal * settings.LowestShareOfNominal, Nominal * settings.HighestShareOfNominal);
        var count = Math.Min(buffer.Count, (int)(whole / Nominal));
        return Math.Clamp(scan.Find(buffer.Axes, buffer.First, count, low, high, settings.FreeDrive), low, high);
    }

    private void Follow(in WindowReading reading, int count, IWindowSink sink)
    {
        if (reading.Motion == MotionState.Unknown)
        {
            transients.Abandon();
            return;
        }

        if (reading.Motion is MotionState.Running or MotionState.Starting
            && reading.Quality != WindowQuality.Noisy && analysis.InRange(analysis.MeasuredFrequency))
        {
            (tracked, lost) = (analysis.MeasuredFrequency, 0);
        }
        else if (reading is { Quality: WindowQuality.Noisy, Motion: MotionState.Running or MotionState.Starting })
        {
            lost++;
        }
        else if (settings.FreeDrive && reading.Motion == MotionState.Stopped)
        {
            tracked = 0;
        }

        transients.Take(reading, count, tracked, sink);
    }
}
