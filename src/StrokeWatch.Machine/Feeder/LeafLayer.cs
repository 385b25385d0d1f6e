namespace StrokeWatch.Machine.Feeder;

/// <summary>Some leaves of one thickness in a stack.</summary>
/// <param name="ThicknessMetres">Thickness of each leaf in metres.</param>
/// <param name="Count">Number of leaves.</param>
public sealed record LeafLayer(double ThicknessMetres, int Count);
