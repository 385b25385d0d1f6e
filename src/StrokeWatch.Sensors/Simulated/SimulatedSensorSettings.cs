namespace StrokeWatch.Sensors.Simulated;

/// <summary>What kind of sensor is simulated.</summary>
public sealed record SimulatedSensorSettings
{
    /// <summary>Gets the rate in Hz, to a thousandth; 4000 by default.</summary>
    public double RateHz { get; init; } = 4000;

    /// <summary>Gets the full scale in m/s², either sign; 40 standard gravities by default. Counts are of 16 bits.</summary>
    public double FullScale { get; init; } = 392.266;

    /// <summary>Gets the samples in a frame, 1 to 170 with one sensor, to 21 with eight; 32 by default.</summary>
    public int SamplesPerFrame { get; init; } = 32;

    /// <summary>Gets the number of this start of the device, 1 to 65535; another for each simulated restart.</summary>
    public ushort StartNumber { get; init; } = 1;

    /// <summary>Gets the full scale of the supply's voltage in units of its channel, either sign, where the source takes it; 1000 by default.</summary>
    public double SupplyFullScale { get; init; } = 1000;

    /// <summary>Gets the text that its announcement carries, up to 64 bytes.</summary>
    public string Firmware { get; init; } = "simulated sensor";
}
