using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Configuration;

/// <summary>Where the sensor is and how it speaks: the table [sensor] of the daemon's configuration.</summary>
internal sealed record SensorSettings
{
    /// <summary>The baud rate where the file gives none.</summary>
    public const int DefaultBaud = 921_600;

    /// <summary>Gets the serial port's path.</summary>
    public required string Port { get; init; }

    /// <summary>Gets what comes over the port.</summary>
    public required SensorProtocol Protocol { get; init; }

    /// <summary>Gets the baud rate, 300 to 12 000 000; 921 600 where not given.</summary>
    public int Baud { get; init; } = DefaultBaud;

    /// <summary>Gets the unit of the numbers; always there for lines, null for frames.</summary>
    public AccelerationUnit? Unit { get; init; }

    /// <summary>Gets how many counts one standard gravity makes; always there where the unit is counts.</summary>
    public double? CountsPerG { get; init; }

    /// <summary>Gets the nominal rate in Hz, 100 to 100 000; always there for lines.</summary>
    public double? RateHz { get; init; }

    /// <summary>Gets the full scale in m/s², either sign, if given.</summary>
    public double? FullScale { get; init; }

    /// <summary>Gets the axis of each channel, in the order of the numbers; x, y, z where not given.</summary>
    public IReadOnlyList<Axis> Axes { get; init; } = [Axis.X, Axis.Y, Axis.Z];
}
