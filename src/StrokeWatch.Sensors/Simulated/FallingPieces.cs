namespace StrokeWatch.Sensors.Simulated;

/// <summary>Pieces of material that fall on the tray at random: half-sine pulses, Poisson in time, exponential in force.</summary>
internal sealed class FallingPieces
{
    private readonly SimulatedMaterial material;
    private readonly SeededRandom random;
    private readonly List<(double Start, double Peak, double Place)> active = [];
    private double next;

    public FallingPieces(SimulatedMaterial material, SeededRandom random, double startSeconds)
    {
        this.material = material;
        this.random = random;
        next = startSeconds;
        Schedule();
    }

    /// <summary>Gives the force in N at a time, and what of it the tray's modes feel, which depends on where each piece falls.</summary>
    public (double Force, double Modal) At(double seconds)
    {
        while (seconds >= next)
        {
            active.Add((next, material.ImpactNewtons * random.Exponential(), 0.3 + (1.4 * random.Uniform())));
            Schedule();
        }

        double force = 0, modal = 0;
        for (var i = active.Count - 1; i >= 0; i--)
        {
            var (start, peak, place) = active[i];
            var phase = (seconds - start) / material.ImpactSeconds;
            if (phase >= 1)
            {
                active.RemoveAt(i);
                continue;
            }

            var now = peak * Math.Sin(Math.PI * phase);
            force += now;
            modal += now * place;
        }

        return (force, modal);
    }

    private void Schedule() =>
        next = material.ImpactsPerSecond > 0 ? next + (random.Exponential() / material.ImpactsPerSecond) : double.PositiveInfinity;
}
