namespace StrokeWatch.Configuration;

/// <summary>Where readings are kept and for how long: the table [store] of the daemon's configuration.</summary>
/// <param name="Path">The database file; a relative path counts from the configuration file's folder.</param>
/// <param name="KeepDays">Days that windows are kept, of those that the program has run, 1 to 36 500; 90 where not given. Alarms and events are kept for ever.</param>
internal sealed record StoreSettings(string Path, int KeepDays);
