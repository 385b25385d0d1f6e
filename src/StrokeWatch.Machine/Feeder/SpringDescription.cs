namespace StrokeWatch.Machine.Feeder;

/// <summary>The leaf springs: clamped at both ends, working in parallel.</summary>
public sealed record SpringDescription
{
    /// <summary>Gets Young's modulus in Pa.</summary>
    public required double Modulus { get; init; }

    /// <summary>Gets the free length between clamps in metres.</summary>
    public required double LengthMetres { get; init; }

    /// <summary>Gets the width in metres.</summary>
    public required double WidthMetres { get; init; }

    /// <summary>Gets the front stack, set when the feeder was built and never changed by advice.</summary>
    public required IReadOnlyList<LeafLayer> Front { get; init; }

    /// <summary>Gets the rear stack.</summary>
    public required IReadOnlyList<LeafLayer> Rear { get; init; }

    /// <summary>Gets the leaf thicknesses at hand, in metres.</summary>
    public IReadOnlyList<double> Stock { get; init; } = [];

    /// <summary>Gets the most leaves that the rear clamp takes, if known.</summary>
    public int? MaxRearLeaves { get; init; }

    /// <summary>Gets the endurance stress in Pa, if known.</summary>
    public double? EnduranceStress { get; init; }

    /// <summary>Gets the leaves' density in kg/m³; null where the feeder file gives none and the modulus is not that of spring steel.</summary>
    public double? Density { get; init; }

    /// <summary>Gives the stiffness in N/m of all leaves together: (E b / L³) Σ t³, fixed-guided leaves in parallel (Roark, table 8.1 case 1b, from memory).</summary>
    public double Stiffness()
    {
        var cubes = 0.0;
        foreach (var layer in Front.Concat(Rear))
        {
            cubes += layer.Count * Math.Pow(layer.ThicknessMetres, 3);
        }

        return Modulus * WidthMetres * cubes / Math.Pow(LengthMetres, 3);
    }
}
