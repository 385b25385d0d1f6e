namespace StrokeWatch.Samples.Quantities;

/// <summary>
/// The relations between stroke, velocity and acceleration of a sinusoid x = (D/2) sin 2πft, D being the peak-to-peak stroke.
/// Source: NASA Goddard FEMCI, "What does double amplitude mean in sine vibration?".
/// </summary>
public static class Sinusoid
{
    /// <summary>Gives the peak acceleration in m/s² of a stroke (peak to peak) at a frequency in Hz: 2π²f²D.</summary>
    public static double PeakAcceleration(Length stroke, double frequencyHz) =>
        2 * Math.PI * Math.PI * frequencyHz * frequencyHz * stroke.Metres;

    /// <summary>Gives the peak velocity in m/s of a stroke (peak to peak) at a frequency in Hz: πfD.</summary>
    public static double PeakVelocity(Length stroke, double frequencyHz) => Math.PI * frequencyHz * stroke.Metres;

    /// <summary>Gives the stroke (peak to peak) of a peak acceleration in m/s² at a frequency in Hz.</summary>
    public static Length Stroke(double peakAcceleration, double frequencyHz) =>
        Length.FromMetres(peakAcceleration / (2 * Math.PI * Math.PI * frequencyHz * frequencyHz));

    /// <summary>Gives the frequency in Hz at which a stroke and a peak acceleration in m/s² belong together.</summary>
    public static double Crossover(Length stroke, double peakAcceleration) =>
        Math.Sqrt(peakAcceleration / (2 * Math.PI * Math.PI * stroke.Metres));
}
