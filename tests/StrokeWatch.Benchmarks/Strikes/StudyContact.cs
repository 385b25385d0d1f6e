using System.Numerics;
using StrokeWatch.Machine.Dynamics;

namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>
/// Contact of armature and core where the gap has become a little too small: from an instant on, the two masses run against it, as often and as hard as comes of it.
/// </summary>
/// <remarks>How long a touch lasts is drawn as for blows that are laid out (0.3 to 1 ms, common practice, no source); the contact's stiffness follows from it.</remarks>
internal sealed class StudyContact(Random random, StudyMachine machine, double seconds, int fine, double onset, Func<double, double> supply, SupplyWander wander)
{
    private const int Parts = 5;
    private readonly List<(double At, double Share)> blows = [];
    private readonly double length = Draw.Log(random, 0.3e-3, 1e-3);
    private readonly double restitution = Draw.Between(random, 0.3, 0.7);
    private double depth = Draw.Log(random, 0.001, 0.1);
    private double stiff;
    private double usualLength;

    /// <summary>Gets the usual blow's peak force over the magnet's peak pull.</summary>
    public double ForceShare { get; private set; }

    /// <summary>Lays pull and contact; false where no gap was found that gives blows of such a force, one in three cycles at least.</summary>
    public bool Lay(Complex[] force, double low, double high)
    {
        stiff = length;
        for (var attempt = 0; attempt < 6; attempt++)
        {
            // Part of the run tells whether the gap is worth the whole.
            var until = onset + (0.3 * (seconds - onset));
            Hammer(force, (int)(until / seconds * fine));
            if (Fits(until))
            {
                Hammer(force, fine);
                if (Fits(seconds))
                {
                    return true;
                }
            }

            var long_ = usualLength > 0 && usualLength < 0.8 * length;
            stiff *= long_ ? Math.Min(2, length / usualLength) : usualLength > 1.25 * length ? 0.7 : 1;
            depth = Math.Min(0.5, depth * (ForceShare < low ? 1.7 : ForceShare >= high ? 0.45 : long_ ? 1.3 : 1));
        }

        return false;

        bool Fits(double end) =>
            blows.Count >= 0.33 * machine.Hertz * (end - onset) && ForceShare >= low && ForceShare < high && usualLength > 0.8 * length && usualLength < 1.25 * length;
    }

    /// <summary>Says whether a stretch of time holds a blow in three cycles at least, the usual one of so great a force.</summary>
    public bool Strikes(double from, double until, double low)
    {
        var there = blows.Where(blow => blow.At >= from && blow.At < until).Select(blow => blow.Share).Order().ToList();
        return there.Count >= 0.33 * machine.Hertz * (until - from) && there[there.Count / 2] >= low;
    }

    private void Hammer(Complex[] force, int until)
    {
        var h = seconds / fine / Parts;
        var parts = machine.Parts;
        var mean = Enumerable.Range(0, 4096).Average(i => machine.Pull(2.0 * i / 4096));
        var (sag, amplitude) = (mean / parts.Stiffness, Complex.Abs(machine.Opening));
        var law = ContactLaw.From(stiff, restitution, 0.1, TwoMass.ReducedMass(parts.TrayKilograms, parts.BodyKilograms));
        var free = new TwoMassMotion(parts);
        var tight = new TwoMassMotion(parts with { ContactGap = sag + (amplitude * (1 - depth)), Contact = law });
        var motion = free;
        var omega = 2 * Math.PI * machine.Hertz;
        var tray = machine.TrayMotion;
        var body = tray - machine.Opening;
        var start = (int)((onset - 0.4) / h / Parts) * Parts;
        var turn = Complex.FromPolarCoordinates(1, (omega * start * h) + (2 * Math.PI * machine.StrokesPerCycle * wander.At(start * h)));
        motion.Set((tray * turn).Real - (sag / 2), -(tray * turn).Imaginary * omega, (body * turn).Real + (sag / 2), -(body * turn).Imaginary * omega);
        var lengths = new List<double>();
        double peak = 0, sum = 0;
        var began = 0;
        blows.Clear();
        for (var i = 0; i < start / Parts; i++)
        {
            force[i] = new(-Pull((i + 0.5) * seconds / fine), 0);
        }

        for (var i = start; i < until * Parts; i++)
        {
            if (motion == free && i * h >= onset)
            {
                motion = tight;
                motion.Set(free.Tray, free.TrayVelocity, free.Body, free.BodyVelocity);
            }

            motion.Step(h, (Pull(i * h), Pull((i + 0.5) * h), Pull((i + 1) * h)), default);
            began = peak == 0 ? i : began;
            sum += motion.ContactForce;
            peak = Math.Max(peak, motion.ContactForce);
            if (motion.ContactForce == 0 && peak > 0)
            {
                blows.Add((began * h, peak / machine.PeakPull));
                lengths.Add((i - began) * h);
                peak = 0;
            }

            if (i % Parts == Parts - 1)
            {
                var at = ((i / Parts) + 0.5) * seconds / fine;
                force[i / Parts] = new((sum / Parts) - Pull(at), 0);
                sum = 0;
            }
        }

        lengths.Sort();
        usualLength = lengths.Count == 0 ? 0 : lengths[lengths.Count / 2];
        ForceShare = blows.Count == 0 ? 0 : blows.Select(blow => blow.Share).Order().ElementAt(blows.Count / 2);

        double Pull(double t) => supply(t) * machine.Pull((machine.Hertz * t) + (machine.StrokesPerCycle * wander.At(t)));
    }
}
