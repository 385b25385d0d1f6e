namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A clamp that lets part of a leaf's stiffness slip: a spring in line with dry friction beside the rest (Jenkins element, from memory).</summary>
/// <param name="StiffnessShare">The share of the stiffness that goes through it.</param>
/// <param name="SlipMetres">How far its spring is strained when it begins to slip.</param>
internal sealed record SlippingJoint(double StiffnessShare, double SlipMetres);
