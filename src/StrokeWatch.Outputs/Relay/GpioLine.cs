using System.Device.Gpio;

namespace StrokeWatch.Outputs.Relay;

/// <summary>A relay at a line of a GPIO chip: an output from the first instant with the value that leaves the relay de-energised.</summary>
internal sealed class GpioLine : IRelayLine
{
    private readonly GpioController controller;
    private readonly int line;
    private readonly bool activeLow;

    /// <summary>Opens the line.</summary>
    /// <exception cref="IOException">It cannot be opened.</exception>
    public GpioLine(RelayOptions options, GpioDriver driver)
    {
        (line, activeLow) = (options.Line, options.ActiveLow);
        controller = new(driver);
        try
        {
            // With its value in the same call: opened without, a line of an active-low board energises the relay for a moment (dotnet/iot#721, #1479).
            controller.OpenPin(line, PinMode.Output, Value(energised: false));
        }
        catch
        {
            controller.Dispose();
            throw;
        }
    }

    /// <summary>Opens the line of a chip of this machine.</summary>
    /// <exception cref="IOException">It cannot be opened.</exception>
    public static GpioLine Open(RelayOptions options) => new(options, new ChipDriver(options.Chip));

    /// <inheritdoc/>
    public void Write(bool energised) => controller.Write(line, Value(energised));

    /// <inheritdoc/>
    public void Dispose()
    {
        try
        {
            controller.Write(line, Value(energised: false));
        }
        catch (IOException)
        {
            // The chip has gone: what holds the relay down then is the resistor at its input.
        }
        finally
        {
            controller.Dispose();
        }
    }

    private PinValue Value(bool energised) => energised != activeLow ? PinValue.High : PinValue.Low;
}
