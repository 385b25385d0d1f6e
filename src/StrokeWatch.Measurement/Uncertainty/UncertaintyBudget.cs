namespace StrokeWatch.Measurement.Uncertainty;

/// <summary>
/// The contributions to a result's uncertainty and what they make together.
/// Source: JCGM 100:2008 (GUM), equations 10, 13 and 16 (combined), G.2b (Welch-Satterthwaite) and G.1d (expanded).
/// </summary>
public sealed class UncertaintyBudget
{
    private readonly bool correlated;

    /// <summary>Makes a budget; estimates not named among the correlations are independent.</summary>
    public UncertaintyBudget(IReadOnlyList<UncertaintyComponent> components, IReadOnlyList<Correlation>? correlations = null)
    {
        Components = components;
        var square = components.Sum(component => component.Contribution * component.Contribution);
        foreach (var (first, second, coefficient) in correlations ?? [])
        {
            if (!(Math.Abs(coefficient) <= 1) || first == second)
            {
                throw new ArgumentOutOfRangeException(nameof(correlations), coefficient, "A correlation is of two components and lies from -1 to 1.");
            }

            correlated |= coefficient != 0;
            var (one, other) = (components[first], components[second]);
            square += 2 * coefficient * one.Sensitivity * one.StandardUncertainty * other.Sensitivity * other.StandardUncertainty;
        }

        Combined = Math.Sqrt(Math.Max(0, square));
        EffectiveDegreesOfFreedom = WelchSatterthwaite();
    }

    /// <summary>Gets the components.</summary>
    public IReadOnlyList<UncertaintyComponent> Components { get; }

    /// <summary>Gets the combined standard uncertainty, in the result's unit.</summary>
    public double Combined { get; }

    /// <summary>Gets the effective degrees of freedom, infinite where every uncertainty that counts is known; null with correlated estimates, for which the formula does not hold.</summary>
    public double? EffectiveDegreesOfFreedom { get; }

    /// <summary>Gives the share of the combined variance that a component makes (independent estimates), 0 to 1.</summary>
    public double Share(UncertaintyComponent component) =>
        Combined > 0 ? component.Contribution / Combined * (component.Contribution / Combined) : 0;

    /// <summary>Gives the coverage factor by the t-distribution.</summary>
    /// <exception cref="InvalidOperationException">The estimates are correlated.</exception>
    public double CoverageFactor(double coverage) => StudentFactor.For(coverage, Known());

    /// <summary>Gives the expanded uncertainty by the t-distribution, in the result's unit.</summary>
    /// <exception cref="InvalidOperationException">The estimates are correlated.</exception>
    public double Expanded(double coverage) => CoverageFactor(coverage) * Combined;

    /// <summary>Gives the share of results that ±k combined standard uncertainties cover.</summary>
    /// <exception cref="InvalidOperationException">The estimates are correlated.</exception>
    public double Coverage(double coverageFactor) => StudentFactor.Coverage(coverageFactor, Known());

    private double Known() => EffectiveDegreesOfFreedom
        ?? throw new InvalidOperationException("The effective degrees of freedom of correlated estimates are not defined (GUM G.4.1).");

    private double? WelchSatterthwaite()
    {
        if (correlated)
        {
            return null;
        }

        var sum = Components.Sum(component => Math.Pow(component.Contribution, 4) / component.DegreesOfFreedom);
        return sum > 0 ? Math.Pow(Combined, 4) / sum : double.PositiveInfinity;
    }
}
