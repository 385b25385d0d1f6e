using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Sensors.Lines;

/// <summary>What the numbers of a text line mean; lines do not say it themselves.</summary>
public sealed record TextLineFormat
{
    /// <summary>Gets the axes of a sensor in the order of the columns, one to three; x, y, z by default.</summary>
    public IReadOnlyList<Axis> Axes { get; init; } = [Axis.X, Axis.Y, Axis.Z];

    /// <summary>Gets the number of sensors in a line, 1 to 8, whose axes follow each other; 1 by default.</summary>
    public int Sensors { get; init; } = 1;

    /// <summary>Gets the unit of the axes; g by default.</summary>
    public AccelerationUnit Unit { get; init; } = AccelerationUnit.G;

    /// <summary>Gets the m/s² in one count, where the unit is counts; 0 is refused.</summary>
    public double CountScale { get; init; } = 1;

    /// <summary>Gets the rate in Hz; null where it is to be measured.</summary>
    public double? RateHz { get; init; }

    /// <summary>Gets the full scale in m/s², either sign; null where unknown.</summary>
    public double? FullScale { get; init; }

    /// <summary>Gets what the first column is.</summary>
    public TimeColumn Time { get; init; }

    /// <summary>Gets whether the last column is the supply's voltage, in volts or in a unit that the feeder file's <c>scale_v</c> tells.</summary>
    public bool Supply { get; init; }

    /// <summary>Gets the factor from the numbers to m/s².</summary>
    internal double Scale => AccelerationUnits.Scale(Unit) ?? CountScale;

    /// <summary>Gets the seconds in one unit of the time column.</summary>
    internal double TimeUnit => Time == TimeColumn.Milliseconds ? 1e-3 : 1e-6;

    /// <summary>Gets the number of columns that are axes.</summary>
    internal int Channels => Sensors * Axes.Count;

    /// <summary>Gets the number of columns.</summary>
    internal int Columns => FirstChannel + Channels + (Supply ? 1 : 0);

    /// <summary>Gets the first column that is an axis.</summary>
    internal int FirstChannel => Time == TimeColumn.None ? 0 : 1;
}
