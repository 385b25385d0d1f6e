using Microsoft.Win32.SafeHandles;

namespace StrokeWatch.Sensors.Serial;

/// <summary>An open file descriptor; it is closed only once no call uses it any more.</summary>
internal sealed class Descriptor : SafeHandleMinusOneIsInvalid
{
    /// <summary>Takes over a descriptor, or the -1 of a call that failed.</summary>
    public Descriptor(int number)
        : base(ownsHandle: true) => SetHandle(number);

    /// <inheritdoc/>
    protected override bool ReleaseHandle() => Libc.Close((int)handle) == 0;
}
