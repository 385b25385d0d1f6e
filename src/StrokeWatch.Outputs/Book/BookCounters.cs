namespace StrokeWatch.Outputs.Book;

/// <summary>What the feeder has run, as <c>watch</c> has counted it.</summary>
/// <param name="Seconds">Time of running in s.</param>
/// <param name="Cycles">Strokes made.</param>
/// <param name="Starts">Starts.</param>
/// <param name="SecondsOutside">Time of running with the stroke outside its band, in s.</param>
/// <param name="Since">Since when it is counted.</param>
/// <param name="Updated">When it was last written.</param>
public sealed record BookCounters(double Seconds, double Cycles, long Starts, double SecondsOutside, DateTimeOffset Since, DateTimeOffset Updated)
{
    /// <summary>Gets the hours of running.</summary>
    public double Hours => Seconds / 3600;

    /// <summary>Gets the hours of running with the stroke outside its band.</summary>
    public double HoursOutside => SecondsOutside / 3600;
}
