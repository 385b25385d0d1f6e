namespace StrokeWatch.Machine.Dynamics;

/// <summary>
/// The motion of tray and body along the line of action, integrated by the classical fourth-order Runge-Kutta method with a fixed step.
/// </summary>
/// <remarks>
/// The tray's direction is positive away from the core: a pull closes the gap. A step must be small against the shortest contact;
/// a tenth of it keeps the impact speed within 1 %.
/// </remarks>
public sealed class TwoMassMotion(MechanicalParameters parameters)
{
    /// <summary>Gets the tray's displacement in metres.</summary>
    public double Tray { get; private set; }

    /// <summary>Gets the tray's velocity in m/s.</summary>
    public double TrayVelocity { get; private set; }

    /// <summary>Gets the tray's acceleration in m/s² at the end of the last step.</summary>
    public double TrayAcceleration { get; private set; }

    /// <summary>Gets the body's displacement in metres.</summary>
    public double Body { get; private set; }

    /// <summary>Gets the body's velocity in m/s.</summary>
    public double BodyVelocity { get; private set; }

    /// <summary>Gets the body's acceleration in m/s² at the end of the last step.</summary>
    public double BodyAcceleration { get; private set; }

    /// <summary>Gets the force in N with which armature and core push each other apart, at the end of the last step.</summary>
    public double ContactForce { get; private set; }

    /// <summary>Gets how far the masses have moved apart, in metres; negative when the gap is smaller than at rest.</summary>
    public double Opening => Tray - Body;

    /// <summary>Gets the speed of <see cref="Opening"/> in m/s.</summary>
    public double OpeningSpeed => TrayVelocity - BodyVelocity;

    /// <summary>Sets displacements in metres and velocities in m/s.</summary>
    public void Set(double tray, double trayVelocity, double body, double bodyVelocity) =>
        (Tray, TrayVelocity, Body, BodyVelocity) = (tray, trayVelocity, body, bodyVelocity);

    /// <summary>Goes one step of h seconds, given the pull between the masses and the push on the tray alone, each in N at the step's start, middle and end.</summary>
    public void Step(double h, (double Start, double Middle, double End) pull, (double Start, double Middle, double End) push)
    {
        double x = Tray, v = TrayVelocity, y = Body, w = BodyVelocity, half = h / 2;
        var (a1, b1, _) = Accelerations(x, v, y, w, pull.Start, push.Start);
        double v2 = v + (half * a1), w2 = w + (half * b1);
        var (a2, b2, _) = Accelerations(x + (half * v), v2, y + (half * w), w2, pull.Middle, push.Middle);
        double v3 = v + (half * a2), w3 = w + (half * b2);
        var (a3, b3, _) = Accelerations(x + (half * v2), v3, y + (half * w2), w3, pull.Middle, push.Middle);
        double v4 = v + (h * a3), w4 = w + (h * b3);
        var (a4, b4, _) = Accelerations(x + (h * v3), v4, y + (h * w3), w4, pull.End, push.End);
        Tray = x + (h / 6 * (v + (2 * (v2 + v3)) + v4));
        Body = y + (h / 6 * (w + (2 * (w2 + w3)) + w4));
        TrayVelocity = v + (h / 6 * (a1 + (2 * (a2 + a3)) + a4));
        BodyVelocity = w + (h / 6 * (b1 + (2 * (b2 + b3)) + b4));
        (TrayAcceleration, BodyAcceleration, ContactForce) = Accelerations(Tray, TrayVelocity, Body, BodyVelocity, pull.End, push.End);
    }

    /// <summary>Gives the mechanical energy in J held in masses, springs and mounts (not in the contact).</summary>
    public double Energy() =>
        ((parameters.TrayKilograms * TrayVelocity * TrayVelocity) + (parameters.BodyKilograms * BodyVelocity * BodyVelocity)
            + (parameters.Stiffness * Opening * Opening) + (parameters.MountStiffness * Body * Body)) / 2;

    private (double Tray, double Body, double Contact) Accelerations(double x, double v, double y, double w, double pull, double push)
    {
        double opening = x - y, speed = v - w;
        var contact = parameters.Contact?.Force(-opening - parameters.ContactGap, -speed) ?? 0;
        var between = contact - pull - (parameters.Stiffness * opening) - (parameters.Damping * speed);
        return (
            (between + push) / parameters.TrayKilograms,
            (-between - (parameters.MountStiffness * y) - (parameters.MountDamping * w)) / parameters.BodyKilograms,
            contact);
    }
}
