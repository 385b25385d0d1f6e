namespace StrokeWatch.Machine.Dynamics;

/// <summary>
/// A damped oscillator q″ + 2ζωq′ + ω²q = u, stepped exactly for an input that runs straight between steps.
/// </summary>
public sealed class ModalOscillator
{
    private readonly double omega;
    private readonly double loss;
    private readonly double step;
    private readonly double p11, p12, p21, p22;
    private double last;

    /// <summary>Makes it at rest, for a natural frequency in Hz, a damping ratio below 1 and a step in seconds.</summary>
    public ModalOscillator(double frequencyHz, double dampingRatio, double stepSeconds)
    {
        omega = 2 * Math.PI * frequencyHz;
        loss = 2 * dampingRatio * omega;
        step = stepSeconds;
        var damped = omega * Math.Sqrt(1 - (dampingRatio * dampingRatio));
        var decay = Math.Exp(-dampingRatio * omega * step);
        var cos = decay * Math.Cos(damped * step);
        var sin = decay * Math.Sin(damped * step) / damped;
        p11 = cos + (dampingRatio * omega * sin);
        p12 = sin;
        p21 = -omega * omega * sin;
        p22 = cos - (dampingRatio * omega * sin);
    }

    /// <summary>Gets q.</summary>
    public double Displacement { get; private set; }

    /// <summary>Gets q′.</summary>
    public double Velocity { get; private set; }

    /// <summary>Gets q″.</summary>
    public double Acceleration { get; private set; }

    /// <summary>Goes one step; the input runs straight from the value before to this one.</summary>
    public void Step(double input)
    {
        var square = omega * omega;
        var slope = (input - last) / step;
        var shift = loss * slope / (square * square);
        var q = Displacement - ((last / square) - shift);
        var v = Velocity - (slope / square);
        Displacement = (p11 * q) + (p12 * v) + (input / square) - shift;
        Velocity = (p21 * q) + (p22 * v) + (slope / square);
        Acceleration = input - (loss * Velocity) - (square * Displacement);
        last = input;
    }
}
