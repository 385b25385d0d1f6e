namespace StrokeWatch.Sensors.Simulated;

/// <summary>Takes the supply's voltage as a recorder does: low-passed like the accelerations, so that both belong to the same instants, with noise, in the channel's unit.</summary>
internal sealed class VoltageProbe(SimulatedSupplyChannel channel, ulong seed, int factor)
{
    private const int Stream = 9;
    private readonly Decimator decimator = new(factor);
    private readonly SeededRandom random = new(seed, Stream);

    /// <summary>Takes the voltage of one step.</summary>
    public void Push(FeederMachine machine) => decimator.Push((Volts(channel, machine), 0, 0));

    /// <summary>Gives the next sample.</summary>
    public double Read() => (decimator.Value().X + (channel.NoiseVolts * random.Normal())) / channel.VoltsPerUnit;

    /// <summary>Gives the true voltage at the channel's place.</summary>
    public static double Volts(SimulatedSupplyChannel channel, FeederMachine machine) =>
        channel.AtCoil && !machine.Conducting ? 0 : channel.FullVolts * Math.Sqrt(2) * machine.LineVoltage;
}
