using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Pipeline;

/// <summary>Running that has been measured and not yet been written into the machine book.</summary>
/// <param name="Seconds">Time of running in s.</param>
/// <param name="Cycles">Strokes made.</param>
/// <param name="Starts">Starts.</param>
/// <param name="SecondsOutside">Time of running outside the band in s.</param>
internal readonly record struct RunningTally(double Seconds, double Cycles, long Starts, double SecondsOutside)
{
    /// <summary>Gets whether there is nothing in it.</summary>
    public bool Empty => Seconds <= 0 && Starts == 0;

    /// <summary>Says whether the feeder runs in a window; what was not measured does not count.</summary>
    public static bool Runs(in AssessedWindow window) => window.Reading.Motion is MotionState.Running or MotionState.Starting;

    /// <summary>Gives the tally with a window.</summary>
    public RunningTally With(in AssessedWindow window)
    {
        if (!Runs(window))
        {
            return this;
        }

        var length = window.Reading.LengthSeconds;
        var outside = window.Verdict is Verdict.Low or Verdict.High or Verdict.OverStroke;
        return new(Seconds + length, Cycles + length * (window.Reading.FrequencyHz ?? 0), Starts, SecondsOutside + (outside ? length : 0));
    }

    /// <summary>Gives the sum of two tallies.</summary>
    public RunningTally Plus(in RunningTally other) =>
        new(Seconds + other.Seconds, Cycles + other.Cycles, Starts + other.Starts, SecondsOutside + other.SecondsOutside);
}
