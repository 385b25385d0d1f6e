namespace StrokeWatch.Sensors.Simulated;

/// <summary>Blows of armature on core laid over the motion: half-sine pulses about the closest approach.</summary>
public sealed record SimulatedStrike
{
    /// <summary>Gets when they begin, in seconds.</summary>
    public double FromSeconds { get; init; }

    /// <summary>Gets when they end, in seconds.</summary>
    public double ToSeconds { get; init; } = double.PositiveInfinity;

    /// <summary>Gets the peak force relative to the magnet's peak pull at full voltage.</summary>
    public double ForceShare { get; init; } = 1;

    /// <summary>Gets 1 for a blow in every cycle, 2 for every second, and so on.</summary>
    public int Every { get; init; } = 1;

    /// <summary>Gets the length of a blow in seconds.</summary>
    public double PulseSeconds { get; init; } = 0.5e-3;

    /// <summary>Gets how far single blows differ: each peak is multiplied by a number spread evenly over 1 ± this.</summary>
    public double Spread { get; init; }
}
