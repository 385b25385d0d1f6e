namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A chute or housing that the tray touches in part of its stroke: soft, one-sided, with dry friction.</summary>
/// <param name="ClearanceMetres">Where along the stroke the touch begins, from the middle.</param>
/// <param name="StiffnessShare">Stiffness of the touch over that of the leaves.</param>
/// <param name="Friction">Coefficient of friction.</param>
internal sealed record RubbingPart(double ClearanceMetres, double StiffnessShare, double Friction);
