namespace StrokeWatch.Sensors.Chips;

/// <summary>A chip's registers in their meaning. A bus that does not answer is an <see cref="IOException"/>; all else that is wrong is a sentence without the chip's name.</summary>
internal interface IChipDriver : IDisposable
{
    /// <summary>Gets the changes in g that the self-test must make on x, y and z.</summary>
    IReadOnlyList<(double Low, double High)> SelfTestLimits { get; }

    /// <summary>Reads who the chip is; null where it is the one configured.</summary>
    string? Identify();

    /// <summary>Resets the chip, writes the settings, reads them back and starts it; null where all hold.</summary>
    string? Start(Action<TimeSpan> pause);

    /// <summary>Reads identity and settings again; null where both still are what they were.</summary>
    string? Holds();

    /// <summary>Switches the self-test's force on or off.</summary>
    void SelfTest(bool on);

    /// <summary>Takes what the chip's store holds; false where what it says of itself cannot be.</summary>
    bool Drain(ChipDrain drain);

    /// <summary>Reads the chip's temperature in °C; null where it has no thermometer.</summary>
    double? Temperature();
}
