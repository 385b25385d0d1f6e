namespace StrokeWatch.Samples.Quantities;

/// <summary>Standard gravity.</summary>
public static class Gravity
{
    /// <summary>Standard acceleration of gravity in m/s², exact by the 3rd CGPM (1901) and ISO 80000-3.</summary>
    public const double Standard = 9.80665;
}
