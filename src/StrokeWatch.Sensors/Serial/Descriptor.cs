using Microsoft.Win32.SafeHandles;

namespace StrokeWatch.Sensors.Serial;

/// <summary>An open file descriptor; it is closed only once no call uses it any more.</summary>
internal sealed class Descriptor : SafeHandleMinusOneIsInvalid
{
    /// <summary>Makes an empty one for the marshaller to fill.</summary>
    public Descriptor()
        : base(ownsHandle: true)
    {
    }

    /// <inheritdoc/>
    protected override bool ReleaseHandle() => Libc.Close((int)handle) == 0;
}
