using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Commands;

/// <summary>What was heard of a serial port in some seconds.</summary>
internal sealed record PortFindings
{
    /// <summary>Gets the bytes that came.</summary>
    public long Bytes { get; init; }

    /// <summary>Gets the first of them, by which another protocol or baud rate is told.</summary>
    public byte[] First { get; init; } = [];

    /// <summary>Gets the seconds listened.</summary>
    public double Seconds { get; init; }

    /// <summary>Gets what the device said of itself; null where nothing of the protocol came.</summary>
    public SensorAnnouncement? Sensor { get; init; }

    /// <summary>Gets the samples that came.</summary>
    public long Samples { get; init; }

    /// <summary>Gets the frames or lines that were turned down after the first good one, by reason.</summary>
    public IReadOnlyDictionary<string, long> Rejected { get; init; } = new Dictionary<string, long>();

    /// <summary>Gets the gaps.</summary>
    public long Gaps { get; init; }

    /// <summary>Gets the rate in Hz by this computer's clock, and the relative uncertainty of that; null where too few came.</summary>
    public (double Hz, double Error)? Rate { get; init; }

    /// <summary>Gets each channel of the first sensor in g: mean, standard deviation, largest size.</summary>
    public IReadOnlyList<(double Mean, double Spread, double Peak)> Channels { get; init; } = [];

    /// <summary>Gets the full scale in g; null where nobody says it.</summary>
    public double? FullScaleG { get; init; }

    /// <summary>Gets the samples at the rail.</summary>
    public long Clipped { get; init; }

    /// <summary>Gets the sensor's clock against the mains, relative; null where the feeder does not run, or its drive is not locked to the mains.</summary>
    public double? ClockError { get; init; }

    /// <summary>Gets the stroke in metres as it was meanwhile; null where none was measured.</summary>
    public double? Stroke { get; init; }

    /// <summary>Gets where gravity and the motion stand in the sensor's axes.</summary>
    public OrientationReading? Orientation { get; init; }

    /// <summary>Gets the supply's true rms in V; null where the device takes none, or it could not be read.</summary>
    public double? SupplyVolts { get; init; }

    /// <summary>Gets what the listening itself was told, in sentences.</summary>
    public IReadOnlyList<string> Told { get; init; } = [];
}
