namespace StrokeWatch.Sensors.Chips;

/// <summary>What a chip at a rate asks of its bus.</summary>
/// <param name="PayloadBits">Bits of samples a second on the wire, each byte of I2C with its acknowledgement; of a chip that is read sample by sample, its whole transactions.</param>
/// <param name="PayloadShare">Those bits over the bus clock.</param>
/// <param name="BusyShare">The part of the time in which the bus is taken, state, addresses and system calls included.</param>
/// <param name="FifoSeconds">How long the chip's own store lasts, in s.</param>
/// <param name="SlackSeconds">How late a drain may begin, in s, so that nothing is lost while it runs.</param>
/// <param name="Verdict">What that means.</param>
public readonly record struct BusLoad(double PayloadBits, double PayloadShare, double BusyShare, double FifoSeconds, double SlackSeconds, BusVerdict Verdict);
