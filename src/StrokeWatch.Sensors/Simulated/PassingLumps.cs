using StrokeWatch.Machine.Dynamics;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The slow random force of lumps passing over the tray: white noise through an oscillator of damping ratio 0.3.</summary>
internal sealed class PassingLumps
{
    private const double DampingRatio = 0.3;
    private readonly ModalOscillator shape;
    private readonly SeededRandom random;
    private readonly double scale;

    public PassingLumps(SimulatedMaterial material, SeededRandom random, double stepSeconds)
    {
        this.random = random;
        shape = new ModalOscillator(material.LumpHz, DampingRatio, stepSeconds);

        // Variance of the oscillator's q for white input of variance 1 a step: h / 4ζω³.
        var omega = 2 * Math.PI * material.LumpHz;
        scale = material.LumpNewtons / Math.Sqrt(stepSeconds / (4 * DampingRatio * Math.Pow(omega, 3)));
    }

    /// <summary>Goes one step and gives the force in N.</summary>
    public double Next()
    {
        if (scale == 0)
        {
            return 0;
        }

        shape.Step(random.Normal());
        return shape.Displacement * scale;
    }
}
