using StrokeWatch.Measurement.Features;
using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Windows;

/// <summary>
/// Listens to windows: strikes, and the levels of orders where the window counts. What it hears hangs on that window alone, so that windows may be listened to in any order,
/// by one ear a thread; what has changed since the windows before, <see cref="KeptLine.Compare"/> tells afterwards, in their order. Nothing is allocated a window.
/// </summary>
public sealed class WindowEar
{
    private readonly StrikeDetector strike;
    private readonly LevelReader levels = new(WindowAnalysis.MostOrders);

    /// <summary>Makes an ear.</summary>
    public WindowEar()
        : this(null)
    {
    }

    /// <summary>Makes an ear that tells what it hears of blows.</summary>
    internal WindowEar(IBlowListener? blows) => strike = new(blows);

    /// <summary>Completes the reading of a window that was kept.</summary>
    public WindowReading Listen(in WindowReading reading, KeptLine kept)
    {
        var heard = Listen(reading with { Unheard = null }, kept.Samples, kept.Fit, kept.Line, kept.RateHz, kept.Counts);
        kept.Heard.Keep(strike.Heard);
        return heard;
    }

    /// <summary>Gets what the last window showed of blows.</summary>
    internal HeardBlows Heard => strike.Heard;

    /// <summary>Completes the reading of a window.</summary>
    internal WindowReading Listen(in WindowReading reading, ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics along, double rateHz, bool counts)
    {
        var score = strike.Judge(line, fit, along, rateHz);
        return reading with
        {
            Levels = counts ? levels.Read(line, fit, along) : reading.Levels,
            StrikeScore = score,
            Strike = score >= 1,
            StrikePossible = score < 1 && strike.Heard.Possible,
            StrikeEvery = score >= 1 && strike.Heard.Period > 0 ? strike.Heard.Period : null,
        };
    }
}
