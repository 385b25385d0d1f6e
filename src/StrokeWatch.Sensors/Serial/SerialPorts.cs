namespace StrokeWatch.Sensors.Serial;

/// <summary>The table of port implementations: which one serves which system.</summary>
public static class SerialPorts
{
    private static readonly (Func<bool> Serves, Func<SerialSettings, OpenResult> Open)[] Table =
    [
        (OperatingSystem.IsLinux, TermiosPort.Open),
        (() => true, PortableSerialPort.Open),
    ];

    /// <summary>Gives the opener of a port for this system; nothing is opened yet.</summary>
    public static IByteSourceOpener Opener(SerialSettings settings) =>
        new SerialOpener(settings, Array.Find(Table, row => row.Serves()).Open);

    private sealed class SerialOpener(SerialSettings settings, Func<SerialSettings, OpenResult> open) : IByteSourceOpener
    {
        public string Name => settings.Path;

        public OpenResult Open() => open(settings);
    }
}
