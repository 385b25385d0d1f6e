using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Windows;

/// <summary>What works the meter's windows out, of one sensor or of several at once.</summary>
internal interface IWindowAnalysis
{
    /// <summary>Gets where gravity and the motion stand, over the windows that count; null with several sensors.</summary>
    OrientationTally? Orientation { get; }

    /// <summary>Gets the same for each of several sensors, in their order; empty with one.</summary>
    IReadOnlyList<OrientationTally> Orientations => [];

    /// <summary>Gets what unsteady sampling did over the windows that count, with several sensors to the one that leads; null where that is stated, or no window counts.</summary>
    JitterReading? Jitter { get; }

    /// <summary>Gets the frequency that the last window showed, in cycles a sample.</summary>
    double MeasuredFrequency { get; }

    /// <summary>Gives the acceleration along the line of action in the last window, in m/s²; once the drive is off, along the line on which the tray ran before.</summary>
    ReadOnlySpan<double> Line(int count);

    /// <summary>Gives the same of the window before the last; with several sensors, of the one that leads now.</summary>
    ReadOnlySpan<double> LineBefore(int count);

    /// <summary>Gives the places of the last window's samples where they were not taken as evenly spaced; empty where they were.</summary>
    ReadOnlySpan<double> Places(int count);

    /// <summary>Forgets the motion, after a gap.</summary>
    void Forget();

    /// <summary>Says whether a frequency in cycles a sample can be the drive's.</summary>
    bool InRange(double frequency);

    /// <summary>Works out the first samples of a buffer.</summary>
    /// <param name="buffer">The samples.</param>
    /// <param name="count">How many make the window.</param>
    /// <param name="frequency">The drive's frequency to start from, in cycles a sample.</param>
    WindowReading Read(WindowBuffer buffer, int count, double frequency);

    /// <summary>Tells what the last window showed beside its reading, before that is told.</summary>
    void Tell(IWindowSink sink);
}
