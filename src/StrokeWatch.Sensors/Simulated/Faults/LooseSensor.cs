namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>
/// The motion of a loose sensor: on each axis a mass on the foot's spring, free within the play, held by the screw beyond it. What it feels is the force on itself.
/// </summary>
internal sealed class LooseSensor(LooseMounting mounting, double stepSeconds)
{
    private const double DampingRatio = 0.03;
    private const double GripMetresPerSecond2 = 9.81;
    private readonly double omega = 2 * Math.PI * mounting.FrequencyHz;
    private readonly double[] place = new double[3];
    private readonly double[] speed = new double[3];

    /// <summary>Gives what the sensor feels while the tray is accelerated, along the tray's axes in m/s².</summary>
    public (double X, double Y, double Z) Next((double X, double Y, double Z) tray) => (Axis(0, tray.X, 0), Axis(1, tray.Y, 0), Axis(2, tray.Z, GripMetresPerSecond2));

    private double Axis(int axis, double tray, double weight)
    {
        double q = place[axis], v = speed[axis];
        var play = axis == 2 ? mounting.PlayMetres : 0.3 * mounting.PlayMetres;
        var strain = q < 0 ? q : q > play ? q - play : 0;
        var loss = strain == 0 && play > 0 ? 0 : 2 * DampingRatio * omega * v;
        var felt = -(omega * omega * strain) - loss;
        v += stepSeconds * (felt - tray - weight);
        (place[axis], speed[axis]) = (q + (stepSeconds * v), v);
        return felt - weight;
    }
}
