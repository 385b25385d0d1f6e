using System.Runtime.CompilerServices;

namespace StrokeWatch.Sensors.Serial;

/// <summary>The kernel's <c>struct termios2</c>: the settings of a terminal, with the speed in bits a second. Source: asm-generic/termbits.h.</summary>
internal struct Termios2
{
    private const uint EightBits = 0x30;
    private const uint Receiver = 0x80;
    private const uint Local = 0x800;
    private const uint SpeedInNumbers = 0x1000;
    private const int ShiftToInputSpeed = 16;
    private const int LeastBytes = 6;
    private const int WaitTenths = 5;

    /// <summary>Input modes.</summary>
    public uint Input;

    /// <summary>Output modes.</summary>
    public uint Output;

    /// <summary>Control modes.</summary>
    public uint Control;

    /// <summary>Local modes.</summary>
    public uint LocalModes;

    /// <summary>Line discipline.</summary>
    public byte Line;

    /// <summary>Control characters.</summary>
    public ControlCharacters Characters;

    /// <summary>Input speed in bits a second.</summary>
    public uint InputSpeed;

    /// <summary>Output speed in bits a second.</summary>
    public uint OutputSpeed;

    /// <summary>
    /// Makes the terminal a plain channel of bytes: eight bits, no parity, no echo, no flow control, modem lines not heeded, and
    /// without the hang-up on close that resets many boards.
    /// </summary>
    public void MakeRaw(int baudRate)
    {
        Input = 0;
        Output = 0;
        LocalModes = 0;
        Control = EightBits | Receiver | Local | SpeedInNumbers | (SpeedInNumbers << ShiftToInputSpeed);
        InputSpeed = OutputSpeed = (uint)baudRate;

        // With a least count of 1 a read without data says "try again"; with 0 it would look like a hang-up.
        Characters[LeastBytes] = 1;
        Characters[WaitTenths] = 0;
    }

    /// <summary>The 19 control characters.</summary>
    [InlineArray(19)]
    public struct ControlCharacters
    {
        private byte first;
    }
}
