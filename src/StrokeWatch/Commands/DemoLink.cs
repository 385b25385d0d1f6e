using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Commands;

/// <summary>The wire of the demonstration: a pseudo-terminal where the system has them, else a link inside the program.</summary>
internal sealed class DemoLink : IDisposable
{
    private readonly IDisposable wire;

    private DemoLink(IDisposable wire, IByteSink sink, IByteSourceOpener opener) => (this.wire, Sink, Opener) = (wire, sink, opener);

    /// <summary>Gets the sensor's end.</summary>
    public IByteSink Sink { get; }

    /// <summary>Gets the daemon's end.</summary>
    public IByteSourceOpener Opener { get; }

    /// <summary>Makes the wire.</summary>
    public static DemoLink Create()
    {
        if (OperatingSystem.IsLinux())
        {
            var terminal = PseudoTerminal.Create();
            return new(terminal, terminal, SerialPorts.Opener(new SerialSettings { Path = terminal.SlavePath }));
        }

        var link = new MemoryLink();
        link.Plug();
        return new(link, link, link);
    }

    /// <inheritdoc/>
    public void Dispose() => wire.Dispose();
}
