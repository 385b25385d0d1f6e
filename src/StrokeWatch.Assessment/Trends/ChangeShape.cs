namespace StrokeWatch.Assessment.Trends;

/// <summary>How a feature changed.</summary>
public enum ChangeShape
{
    /// <summary>At once, and stayed there.</summary>
    Step,

    /// <summary>Steadily from a date on.</summary>
    Ramp,
}
