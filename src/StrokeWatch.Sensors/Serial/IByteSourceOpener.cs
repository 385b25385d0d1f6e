namespace StrokeWatch.Sensors.Serial;

/// <summary>A way to a byte source, to be gone again whenever the source is lost.</summary>
public interface IByteSourceOpener
{
    /// <summary>Gets the name that people know the source by, such as its path.</summary>
    string Name { get; }

    /// <summary>Tries to open the source once, without waiting; failure is a value.</summary>
    OpenResult Open();
}
