using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Commands;

/// <summary>The wire of the demonstration: a pseudo-terminal where the system has them and they can be opened, else a link inside the program.</summary>
internal sealed class DemoLink : IDisposable
{
    private readonly IDisposable wire;

    private DemoLink(IDisposable wire, IByteSink sink, IByteSourceOpener opener) => (this.wire, Sink, Opener) = (wire, sink, opener);

    /// <summary>Gets the sensor's end.</summary>
    public IByteSink Sink { get; }

    /// <summary>Gets the daemon's end.</summary>
    public IByteSourceOpener Opener { get; }

    /// <summary>Makes the wire.</summary>
    public static DemoLink Create() => Create(() => OperatingSystem.IsLinux() ? PseudoTerminal.Create() : throw new PlatformNotSupportedException());

    /// <summary>Makes the wire; where there is no pseudo-terminal to be had, or it cannot be opened as a port (an emulated processor, a container without devpts), the link takes its place.</summary>
    internal static DemoLink Create(Func<PseudoTerminal> make)
    {
        try
        {
            if (OperatingSystem.IsLinux())
            {
                var terminal = make();
                var opener = SerialPorts.Opener(new SerialSettings { Path = terminal.SlavePath });
                if (opener.Open().Source is { } opens)
                {
                    opens.Dispose();
                    return new(terminal, terminal, opener);
                }

                terminal.Dispose();
            }
        }
        catch (IOException)
        {
            // What the demonstration shows does not hang on the wire.
        }

        var link = new MemoryLink();
        link.Plug();
        return new(link, link, link);
    }

    /// <inheritdoc/>
    public void Dispose() => wire.Dispose();
}
