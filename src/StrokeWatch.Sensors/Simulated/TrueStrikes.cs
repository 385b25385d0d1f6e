namespace StrokeWatch.Sensors.Simulated;

/// <summary>The true contacts of armature and core.</summary>
/// <param name="Contacts">How many there were.</param>
/// <param name="FirstSeconds">When the first began, in seconds; null without any.</param>
/// <param name="LastSeconds">When the last began, in seconds; null without any.</param>
/// <param name="PeakNewtons">The highest contact force in N.</param>
/// <param name="ForceShare">That force relative to the magnet's peak pull at full voltage.</param>
/// <param name="AskedShare">The share that the scenario asked for; null where it asked for none.</param>
/// <param name="Every">One blow in so many cycles, as asked; null where none were asked for.</param>
public sealed record TrueStrikes(
    long Contacts, double? FirstSeconds, double? LastSeconds, double PeakNewtons, double ForceShare, double? AskedShare, int? Every);
