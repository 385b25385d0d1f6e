namespace StrokeWatch.Outputs.Store;

/// <summary>A database of a later version.</summary>
internal sealed class StoreVersionException(string message) : Exception(message);
