namespace StrokeWatch.Measurement.Stroke;

/// <summary>A constant and the harmonics of one frequency as fitted to every axis of a window, whether its samples are evenly spaced or not.</summary>
internal interface IWindowHarmonics
{
    /// <summary>Gets the number of axes.</summary>
    int Axes { get; }

    /// <summary>Gets the highest order fitted.</summary>
    int Orders { get; }

    /// <summary>Gets the frequency of the fit, in cycles a sample.</summary>
    double Frequency { get; }

    /// <summary>Gets the frequency that the phase inside the window tells, in cycles a sample.</summary>
    double MeasuredFrequency { get; }

    /// <summary>Gets the number of samples fitted.</summary>
    int Count { get; }

    /// <summary>Gets the sum of squared residuals of all axes.</summary>
    double SquaredResiduals { get; }

    /// <summary>Gets the standard deviation of the residual, one axis, in the samples' unit.</summary>
    double ResidualDeviation { get; }

    /// <summary>Gets the variance of one of the fundamental's coefficients over that of the residual.</summary>
    double CoefficientShare { get; }

    /// <summary>Gives the cosine coefficients of an axis, index 0 being the constant.</summary>
    ReadOnlySpan<double> Cosine(int axis);

    /// <summary>Gives the sine coefficients of an axis, index 0 being unused.</summary>
    ReadOnlySpan<double> Sine(int axis);

    /// <summary>Gives the fundamental's cosine and sine amplitude on an axis in one of <see cref="HarmonicFit.Parts"/> parts of the window.</summary>
    (double Cosine, double Sine) Part(int axis, int part);
}
