namespace StrokeWatch.Measurement.Windows;

/// <summary>Listens to windows after they were measured: gives the storage for what that needs.</summary>
public interface IListenLater
{
    /// <summary>Gives storage for the window that is being measured; it comes back with that window's reading as <see cref="WindowReading.Unheard"/>.</summary>
    KeptLine Next();
}
