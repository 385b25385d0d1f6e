namespace StrokeWatch.Tests.Sensors.Chips.Emulated;

/// <summary>What can be wrong between the board and an emulated chip.</summary>
public enum BusTrouble
{
    None,

    /// <summary>Nobody acknowledges: the kernel's EREMOTEIO.</summary>
    NoAcknowledgement,

    /// <summary>A line is held low: the kernel's ETIMEDOUT.</summary>
    Stuck,

    /// <summary>A loose wire on SPI: all ones.</summary>
    AllOnes,

    /// <summary>A chip without supply on SPI: all zeros.</summary>
    AllZeros,
}
