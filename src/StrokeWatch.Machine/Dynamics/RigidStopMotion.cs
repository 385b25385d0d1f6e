namespace StrokeWatch.Machine.Dynamics;

/// <summary>
/// The motion of x″ + x = F cos ωt against a rigid stop at x = d with restitution e, from impact to impact: exact between impacts, whose times are the only thing searched.
/// </summary>
/// <remarks>Between impacts x = C cos ωt + P cos(t − t₀) + Q sin(t − t₀), C = F/(1 − ω²); undamped linear oscillator, any textbook.</remarks>
public sealed class RigidStopMotion
{
    private const int LooksACycle = 2000;
    private readonly double amplitude, omega, stop, restitution, look;
    private double start, cosine, sine;

    /// <summary>Starts the motion at rest at the middle, at time 0.</summary>
    /// <param name="force">Force over stiffness, F; not 0.</param>
    /// <param name="omega">Drive over natural frequency, ω; above 0 and not 1.</param>
    /// <param name="stop">Distance to the stop, d, above 0.</param>
    /// <param name="restitution">Speed after over speed before an impact, 0 to 1.</param>
    public RigidStopMotion(double force, double omega, double stop, double restitution)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(omega);
        ArgumentOutOfRangeException.ThrowIfEqual(omega, 1);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(stop);
        (amplitude, this.omega, this.stop, this.restitution) = (force / (1 - (omega * omega)), omega, stop, restitution);
        (cosine, look) = (-amplitude, 2 * Math.PI / Math.Max(1, omega) / LooksACycle);
    }

    /// <summary>Goes on to the next impact; null where none comes within so many drive cycles.</summary>
    /// <param name="cycles">Drive cycles to look ahead.</param>
    /// <returns>Time and speed of the impact, in the units of the equation.</returns>
    public (double Time, double Speed)? Next(int cycles = 100)
    {
        var end = start + (2 * Math.PI / omega * cycles);
        for (var from = start + (look / 1000); from < end; from += look)
        {
            if (Beyond(from) <= 0 && Beyond(from + look) > 0)
            {
                var at = Crossing(from, from + look);
                var speed = Speed(at);
                (cosine, sine) = (stop - (amplitude * Math.Cos(omega * at)), (-restitution * speed) + (amplitude * omega * Math.Sin(omega * at)));
                start = at;
                return (at, speed);
            }
        }

        return null;
    }

    private double Beyond(double t) => (amplitude * Math.Cos(omega * t)) + (cosine * Math.Cos(t - start)) + (sine * Math.Sin(t - start)) - stop;

    private double Speed(double t) => (-amplitude * omega * Math.Sin(omega * t)) - (cosine * Math.Sin(t - start)) + (sine * Math.Cos(t - start));

    private double Crossing(double low, double high)
    {
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = Beyond(middle) > 0 ? (low, middle) : (middle, high);
        }

        return high;
    }
}
