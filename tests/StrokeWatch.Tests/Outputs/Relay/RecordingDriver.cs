using System.Device.Gpio;

namespace StrokeWatch.Tests.Outputs.Relay;

/// <summary>A GPIO driver without a chip that writes down each change of mode and value with its time; lines are inputs and read low until they are driven.</summary>
internal sealed class RecordingDriver(TimeProvider clock) : GpioDriver
{
    private readonly Lock gate = new();
    private readonly List<(DateTimeOffset At, string What, int Line, bool? High)> log = [];
    private readonly Dictionary<int, PinMode> modes = [];

    public bool Broken { get; set; }

    public IReadOnlyList<(DateTimeOffset At, string What, int Line, bool? High)> Log
    {
        get
        {
            lock (gate)
            {
                return [.. log];
            }
        }
    }

    /// <summary>Gets the levels the line was driven to, in order.</summary>
    public IReadOnlyList<bool> Levels => [.. Log.Where(entry => entry.High is not null).Select(entry => entry.High!.Value)];

    protected override int PinCount => 64;

    protected override void OpenPin(int pinNumber) => Note("open", pinNumber, null);

    protected override void ClosePin(int pinNumber) => Note("close", pinNumber, null);

    /// <summary>The way that pulses: a line becomes an output, low, before it has its value.</summary>
    protected override void SetPinMode(int pinNumber, PinMode mode)
    {
        modes[pinNumber] = mode;
        Note("mode", pinNumber, mode == PinMode.Output ? false : null);
    }

    protected override void SetPinMode(int pinNumber, PinMode mode, PinValue initialValue)
    {
        modes[pinNumber] = mode;
        Note("mode with value", pinNumber, (bool)initialValue);
    }

    protected override PinMode GetPinMode(int pinNumber) => modes.GetValueOrDefault(pinNumber, PinMode.Input);

    protected override bool IsPinModeSupported(int pinNumber, PinMode mode) => true;

    protected override PinValue Read(int pinNumber) => Log.Last(entry => entry.Line == pinNumber).High ?? false;

    protected override void Write(int pinNumber, PinValue value)
    {
        if (Broken)
        {
            throw new IOException("the chip has gone");
        }

        Note("write", pinNumber, (bool)value);
    }

    protected override WaitForEventResult WaitForEvent(int pinNumber, PinEventTypes eventTypes, CancellationToken cancellationToken) => throw new NotSupportedException();

    protected override void AddCallbackForPinValueChangedEvent(int pinNumber, PinEventTypes eventTypes, PinChangeEventHandler callback) => throw new NotSupportedException();

    protected override void RemoveCallbackForPinValueChangedEvent(int pinNumber, PinChangeEventHandler callback) => throw new NotSupportedException();

    private void Note(string what, int line, bool? high)
    {
        lock (gate)
        {
            log.Add((clock.GetUtcNow(), what, line, high));
        }
    }
}
