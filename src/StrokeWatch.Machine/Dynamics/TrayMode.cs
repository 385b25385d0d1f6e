namespace StrokeWatch.Machine.Dynamics;

/// <summary>One flexible mode of the tray as the sensor sees it.</summary>
/// <param name="FrequencyHz">Natural frequency in Hz.</param>
/// <param name="DampingRatio">Damping ratio.</param>
/// <param name="Share">What the sensor sees of it for a force at the armature: modal displacement obeys q″+2ζωq′+ω²q = share·F/m, m being the tray's mass.</param>
/// <param name="AngleDegrees">Direction of its motion at the sensor, above the x axis in the x-z plane.</param>
/// <param name="SideShare">Its motion along y, relative to that in the x-z plane.</param>
public sealed record TrayMode(double FrequencyHz, double DampingRatio, double Share, double AngleDegrees, double SideShare = 0);
