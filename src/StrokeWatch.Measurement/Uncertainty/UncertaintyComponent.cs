namespace StrokeWatch.Measurement.Uncertainty;

/// <summary>One contribution to a result's uncertainty. Source: JCGM 100:2008 (GUM), 5.1.</summary>
public sealed record UncertaintyComponent
{
    /// <summary>Makes a component.</summary>
    /// <param name="name">What contributes.</param>
    /// <param name="standardUncertainty">The estimate's own standard uncertainty, 0 or more, in its own unit.</param>
    /// <param name="sensitivity">∂result/∂estimate.</param>
    /// <param name="degreesOfFreedom">Above 0; infinite where the uncertainty itself is taken as known.</param>
    /// <param name="basis">How it is known, for people.</param>
    public UncertaintyComponent(
        string name, double standardUncertainty, double sensitivity = 1, double degreesOfFreedom = double.PositiveInfinity, string basis = "")
    {
        if (!double.IsFinite(standardUncertainty) || standardUncertainty < 0)
        {
            throw new ArgumentOutOfRangeException(nameof(standardUncertainty), standardUncertainty, "A standard uncertainty is a finite number, 0 or more.");
        }

        if (!double.IsFinite(sensitivity))
        {
            throw new ArgumentOutOfRangeException(nameof(sensitivity), sensitivity, "A sensitivity coefficient is a finite number.");
        }

        if (!(degreesOfFreedom > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "Degrees of freedom are above 0.");
        }

        Name = name;
        StandardUncertainty = standardUncertainty;
        Sensitivity = sensitivity;
        DegreesOfFreedom = degreesOfFreedom;
        Basis = basis;
    }

    /// <summary>Gets what contributes.</summary>
    public string Name { get; }

    /// <summary>Gets the estimate's own standard uncertainty, in its own unit.</summary>
    public double StandardUncertainty { get; }

    /// <summary>Gets the sensitivity coefficient, ∂result/∂estimate.</summary>
    public double Sensitivity { get; }

    /// <summary>Gets the degrees of freedom; infinite where the uncertainty is taken as known.</summary>
    public double DegreesOfFreedom { get; }

    /// <summary>Gets how it is known, for people.</summary>
    public string Basis { get; }

    /// <summary>Gets the standard uncertainty that it makes in the result, |c|·u, in the result's unit.</summary>
    public double Contribution => Math.Abs(Sensitivity) * StandardUncertainty;

    /// <summary>
    /// Makes the second-order component of two independent estimates whose product matters: |∂²result/∂a∂b|·u(a)·u(b).
    /// Source: GUM 5.1.2, note; the terms ij and ji together, third derivatives left out.
    /// </summary>
    public static UncertaintyComponent OfProduct(string name, double mixedDerivative, double firstUncertainty, double secondUncertainty) =>
        new(name, firstUncertainty * secondUncertainty, mixedDerivative);
}
