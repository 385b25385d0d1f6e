using System.Buffers.Binary;
using System.Device.Gpio;
using System.Globalization;
using System.Runtime.InteropServices;

namespace StrokeWatch.Outputs.Relay;

/// <summary>Outputs of a GPIO chip by the kernel's character device (version 2, Linux 5.10 on), for one line at a time.</summary>
/// <remarks>
/// Not the drivers that come with System.Device.Gpio: the one for libgpiod 1 does not run where only libgpiod 2 is installed (dotnet/iot#2489), and the one for
/// libgpiod 2 makes a line an output first and sets its value afterwards, which is a pulse. Here both are one request. Numbers: the kernel's linux/gpio.h; a test compares them with that file.
/// </remarks>
internal sealed partial class ChipDriver(int chip) : GpioDriver
{
    /// <summary>The request for a line: GPIO_V2_GET_LINE_IOCTL.</summary>
    internal const uint GetLine = 0xC250B407;

    /// <summary>Sets values: GPIO_V2_LINE_SET_VALUES_IOCTL.</summary>
    internal const uint SetValues = 0xC010B40F;

    /// <summary>Gets values: GPIO_V2_LINE_GET_VALUES_IOCTL.</summary>
    internal const uint GetValues = 0xC010B40E;

    /// <summary>Bytes of a request, and where in it its parts lie.</summary>
    internal const int RequestBytes = 592, ConsumerAt = 256, FlagsAt = 288, AttributesAt = 296, AttributeAt = 320, AttributeValuesAt = 328, MaskAt = 336, LinesAt = 560, DescriptorAt = 588;

    /// <summary>GPIO_V2_LINE_FLAG_OUTPUT.</summary>
    internal const ulong Output = 8;

    /// <summary>GPIO_V2_LINE_ATTR_ID_OUTPUT_VALUES.</summary>
    internal const uint OutputValues = 2;

    private const int ReadWrite = 2;
    private const int CloseOnExec = 0x80000;

    private readonly Dictionary<int, int> descriptors = [];

    /// <inheritdoc/>
    protected override int PinCount => 1;

    private string Device => string.Create(CultureInfo.InvariantCulture, $"/dev/gpiochip{chip}");

    /// <inheritdoc/>
    protected override void OpenPin(int pinNumber)
    {
        // A line is asked for with its direction and its value, not before.
    }

    /// <inheritdoc/>
    protected override void ClosePin(int pinNumber)
    {
        if (descriptors.Remove(pinNumber, out var descriptor))
        {
            _ = Close(descriptor);
        }
    }

    /// <inheritdoc/>
    protected override void SetPinMode(int pinNumber, PinMode mode) => throw new NotSupportedException("An output is asked for with its value.");

    /// <inheritdoc/>
    protected override void SetPinMode(int pinNumber, PinMode mode, PinValue initialValue)
    {
        if (mode != PinMode.Output)
        {
            throw new NotSupportedException("Outputs only.");
        }

        var device = Open(Device, ReadWrite | CloseOnExec);
        if (device < 0)
        {
            throw Trouble(Device);
        }

        Span<byte> request = stackalloc byte[RequestBytes];
        Fill(request, pinNumber, (bool)initialValue);
        var failed = Control(device, GetLine, ref MemoryMarshal.GetReference(request)) < 0;
        var trouble = failed ? Trouble(string.Create(CultureInfo.InvariantCulture, $"line {pinNumber} of {Device}")) : null;
        _ = Close(device);
        descriptors[pinNumber] = trouble is null ? BinaryPrimitives.ReadInt32LittleEndian(request[DescriptorAt..]) : throw trouble;
    }

    /// <summary>Writes the request for one line as an output with a value.</summary>
    internal static void Fill(Span<byte> request, int line, bool high)
    {
        request.Clear();
        BinaryPrimitives.WriteUInt32LittleEndian(request, (uint)line);
        "strokewatch"u8.CopyTo(request[ConsumerAt..]);
        BinaryPrimitives.WriteUInt64LittleEndian(request[FlagsAt..], Output);
        BinaryPrimitives.WriteUInt32LittleEndian(request[AttributesAt..], 1);
        BinaryPrimitives.WriteUInt32LittleEndian(request[AttributeAt..], OutputValues);
        BinaryPrimitives.WriteUInt64LittleEndian(request[AttributeValuesAt..], high ? 1UL : 0);
        BinaryPrimitives.WriteUInt64LittleEndian(request[MaskAt..], 1);
        BinaryPrimitives.WriteUInt32LittleEndian(request[LinesAt..], 1);
    }

    /// <inheritdoc/>
    protected override PinMode GetPinMode(int pinNumber) => PinMode.Output;

    /// <inheritdoc/>
    protected override bool IsPinModeSupported(int pinNumber, PinMode mode) => mode == PinMode.Output;

    /// <inheritdoc/>
    protected override PinValue Read(int pinNumber)
    {
        Span<byte> values = stackalloc byte[16];
        BinaryPrimitives.WriteUInt64LittleEndian(values[8..], 1);
        return Control(descriptors[pinNumber], GetValues, ref MemoryMarshal.GetReference(values)) < 0 ? throw Trouble(Device) : (values[0] & 1) == 1;
    }

    /// <inheritdoc/>
    protected override void Write(int pinNumber, PinValue value)
    {
        Span<byte> values = stackalloc byte[16];
        BinaryPrimitives.WriteUInt64LittleEndian(values, (bool)value ? 1UL : 0);
        BinaryPrimitives.WriteUInt64LittleEndian(values[8..], 1);
        if (Control(descriptors[pinNumber], SetValues, ref MemoryMarshal.GetReference(values)) < 0)
        {
            throw Trouble(Device);
        }
    }

    /// <inheritdoc/>
    protected override WaitForEventResult WaitForEvent(int pinNumber, PinEventTypes eventTypes, CancellationToken cancellationToken) => throw new NotSupportedException("Outputs only.");

    /// <inheritdoc/>
    protected override void AddCallbackForPinValueChangedEvent(int pinNumber, PinEventTypes eventTypes, PinChangeEventHandler callback) => throw new NotSupportedException("Outputs only.");

    /// <inheritdoc/>
    protected override void RemoveCallbackForPinValueChangedEvent(int pinNumber, PinChangeEventHandler callback) => throw new NotSupportedException("Outputs only.");

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        foreach (var line in descriptors.Keys.ToArray())
        {
            ClosePin(line);
        }

        base.Dispose(disposing);
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    private static partial int Close(int descriptor);

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(int descriptor, nuint request, ref byte argument);

    private static IOException Trouble(string what) => Marshal.GetLastPInvokeError() switch
    {
        2 or 19 or 6 => new($"{what} is not there"),
        1 or 13 => new($"{what} may not be used by this user: put the user into the group gpio, or let the unit have char-gpiochip"),
        16 => new($"{what} is used by another program or driver"),
        22 => new($"{what} is no line that can be an output"),
        var other => new($"{what}: {Marshal.GetPInvokeErrorMessage(other)}"),
    };
}
