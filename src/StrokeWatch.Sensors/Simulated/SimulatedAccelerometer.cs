namespace StrokeWatch.Sensors.Simulated;

/// <summary>A simulated three-axis accelerometer on the tray.</summary>
public sealed record SimulatedAccelerometer
{
    /// <summary>Gets the rate in Hz that the sensor claims.</summary>
    public double RateHz { get; init; } = 3200;

    /// <summary>Gets the error of its clock: it truly samples at the claimed rate times 1 + this, in parts per million.</summary>
    public double RateErrorPpm { get; init; }

    /// <summary>Gets its range in g, either sign.</summary>
    public double RangeG { get; init; } = 32;

    /// <summary>Gets its sensitivity over the stated one, which drifts with temperature.</summary>
    public double Gain { get; init; } = 1;

    /// <summary>Gets its resolution in bits over both signs of the range, 8 to 24; 0 for no steps at all.</summary>
    public int Bits { get; init; } = 16;

    /// <summary>Gets the r.m.s. noise of each axis in g.</summary>
    public double NoiseG { get; init; } = 0.02;

    /// <summary>Gets the −3 dB frequency of its filter in Hz; null for 0.35 of the rate.</summary>
    public double? BandwidthHz { get; init; }

    /// <summary>Gets the poles of that filter: 0 for none, 1, or 2 (Butterworth).</summary>
    public int Poles { get; init; } = 2;

    /// <summary>Gets the zero offset of each axis in g.</summary>
    public (double X, double Y, double Z) OffsetG { get; init; }

    /// <summary>Gets the incline of the deck, x axis below the horizon, in degrees: it splits the 1 g of gravity; the sensor rests with +1 g on z when level.</summary>
    public double DeckDegrees { get; init; }

    /// <summary>Gets how far the sensor's x axis is turned upwards from the tray's, in the x-z plane, in degrees.</summary>
    public double TurnedDegrees { get; init; }

    /// <summary>Gets how far the sensor's x axis is turned sideways from the tray's, in degrees.</summary>
    public double SidewaysDegrees { get; init; }

    /// <summary>Gets whether times are stamped by the host's true clock instead of counted by the sensor's own.</summary>
    public bool HostTimes { get; init; }

    /// <summary>Gets the r.m.s. jitter of time stamps in seconds.</summary>
    public double TimeJitterSeconds { get; init; }

    /// <summary>Gets the step to which time stamps are rounded, in seconds; 0 for none.</summary>
    public double TimeStepSeconds { get; init; }

    /// <summary>Gets the times in seconds between which samples are lost.</summary>
    public IReadOnlyList<(double From, double To)> Gaps { get; init; } = [];
}
