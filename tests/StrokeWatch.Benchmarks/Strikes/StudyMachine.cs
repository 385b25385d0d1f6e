using System.Numerics;
using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Magnet;

namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>
/// A feeder drawn at random, and what its sensor feels of a force: the machine model's two masses, tray modes, pitch and sensor filter as transfer functions.
/// </summary>
internal sealed class StudyMachine
{
    private const int Table = StudyWave.Points;
    private const double PitchDamping = 0.3;
    private readonly (double Omega, double Damping, double Share, double Cos, double Sin)[] modes;
    private readonly double ellipse, corner, place;
    private readonly double[] pull = new double[Table];
    private readonly int strokes;
    private readonly DriveKind kind;
    private readonly double resistance, bias, fine;
    private double scale;

    public StudyMachine(Random random, double supplyHz, int strokesPerCycle, double cyclesHz, double rate, double fineRate, double firing)
    {
        (strokes, Hertz, fine) = (strokesPerCycle, cyclesHz, fineRate);
        var nominal = supplyHz * strokesPerCycle;
        var (tray, body) = (35 * Draw.Between(random, 0.6, 1.6), 70 * Draw.Between(random, 0.6, 1.6));
        var reduced = TwoMass.ReducedMass(tray, body);
        var stiffness = TwoMass.StiffnessFor(nominal * Draw.Between(random, 1.03, 1.12), tray, body);
        var mount = 2 * Math.PI * Draw.Between(random, 3, 6);
        Parts = new()
        {
            TrayKilograms = tray,
            BodyKilograms = body,
            Stiffness = stiffness,
            Damping = MechanicalParameters.DampingFor(Draw.Between(random, 0.01, 0.03), stiffness, reduced),
            MountStiffness = (tray + body) * mount * mount,
            MountDamping = 0.2 * (tray + body) * mount,
        };
        modes = [Mode(random, 380, 0.4, 75), Mode(random, 760, 0.3, 100), Mode(random, 1400, 0.2, 60)];
        (ellipse, place) = (Draw.Between(random, 0, 0.05), Draw.Between(random, 0.3, 1.7));
        corner = 2 * Math.PI * rate * Draw.Between(random, 0.3, 0.42);
        (LineSin, LineCos) = Math.SinCos(Draw.Between(random, 15, 35) * Math.PI / 180);
        kind = strokesPerCycle == 2 ? DriveKind.FullWave : random.NextDouble() < 0.7 ? DriveKind.HalfWave : DriveKind.MagnetBiased;
        Firing = firing;
        (resistance, bias) = (Draw.Between(random, 0.05, 0.2), Draw.Between(random, 0.7, 1.5));
        FillPull(firing);
        Stroke = 1.6e-3 * Math.Pow(60 / nominal, 2) * Draw.Between(random, 0.6, 1.2);
        Scale();
    }

    private StudyMachine(StudyMachine of, MechanicalParameters parts, double modal)
    {
        (strokes, kind, resistance, bias, fine, scale) = (of.strokes, of.kind, of.resistance, of.bias, of.fine, of.scale);
        (ellipse, corner, place) = (of.ellipse, of.corner, of.place);
        (Parts, Hertz, Firing, Stroke, PeakPull) = (parts, of.Hertz, of.Firing, of.Stroke, of.PeakPull);
        (TrayMotion, Opening, LineSin, LineCos) = (of.TrayMotion, of.Opening, of.LineSin, of.LineCos);
        modes = [.. of.modes.Select(mode => mode with { Omega = mode.Omega * modal })];
        of.pull.CopyTo(pull, 0);
    }

    /// <summary>Gets the moving parts.</summary>
    public MechanicalParameters Parts { get; }

    /// <summary>Gets the strokes in a cycle of the supply.</summary>
    public int StrokesPerCycle => strokes;

    /// <summary>Gets the frequency of the stroke in Hz.</summary>
    public double Hertz { get; }

    /// <summary>Gets the firing angle in degrees.</summary>
    public double Firing { get; }

    /// <summary>Gets the stroke in metres, peak to peak.</summary>
    public double Stroke { get; }

    /// <summary>Gets the amplitude of the fundamental's acceleration in m/s².</summary>
    public double Fundamental => Stroke / 2 * Math.Pow(2 * Math.PI * Hertz, 2);

    /// <summary>Gets the peak pull in N.</summary>
    public double PeakPull { get; private set; }

    /// <summary>Gets the fundamental of the tray's displacement in metres as a complex amplitude.</summary>
    public Complex TrayMotion { get; private set; }

    /// <summary>Gets the fundamental of the gap's opening in metres as a complex amplitude.</summary>
    public Complex Opening { get; private set; }

    /// <summary>Gets the share of the cycle at which armature and core are nearest.</summary>
    public double Nearest => (((Math.PI - Opening.Phase) / (2 * Math.PI)) + 1) % 1;

    public double LineSin { get; }

    public double LineCos { get; }

    /// <summary>Gives the same machine with another load: the tray's mass times a factor, its modes moved by a part of it.</summary>
    public StudyMachine Loaded(double factor) => new(this, Parts with { TrayKilograms = Parts.TrayKilograms * factor }, Math.Pow(factor, -0.2));

    /// <summary>Gives the same machine with its supply cut at another angle.</summary>
    public StudyMachine Fired(double firing)
    {
        var other = new StudyMachine(this, Parts, 1);
        other.FillPull(firing);
        for (var i = 0; i < Table; i++)
        {
            other.pull[i] *= scale;
        }

        return other;
    }

    /// <summary>Gives the pull in N at a time in stroke cycles.</summary>
    public double Pull(double cycles) => StudyWave.At(pull, cycles / strokes);

    /// <summary>Gives what the sensor feels along the tray's x and z axes, in m/s² a newton, of a force that pushes armature and core apart and of one that pushes the tray.</summary>
    public (Complex ApartX, Complex ApartZ, Complex PushX, Complex PushZ) Transfer(double hertz)
    {
        var s = new Complex(0, 2 * Math.PI * hertz);
        var (apart, push, _) = Rigid(s);
        var omega = 2 * Math.PI * Hertz;
        var pitch = -ellipse * 2 * PitchDamping * s * s / ((s * s) + (2 * PitchDamping * omega * s) + (omega * omega));
        Complex modalX = 0, modalZ = 0;
        foreach (var (o, damping, share, cos, sin) in modes)
        {
            var q = share * s * s / (((s * s) + (2 * damping * o * s) + (o * o)) * Parts.TrayKilograms);
            modalX += q * cos;
            modalZ += q * sin;
        }

        var filter = corner * corner / ((s * s) + (Math.Sqrt(2) * corner * s) + (corner * corner));
        var (alongX, alongZ) = (LineCos - (pitch * LineSin), LineSin + (pitch * LineCos));
        var modal = place / LineSin;
        return (filter * ((apart * alongX) + modalX), filter * ((apart * alongZ) + modalZ),
            filter * ((push * alongX) + (modal * modalX)), filter * ((push * alongZ) + (modal * modalZ)));
    }

    private static (double Omega, double Damping, double Share, double Cos, double Sin) Mode(Random random, double hertz, double share, double angle)
    {
        var (sin, cos) = Math.SinCos((angle + Draw.Between(random, -30, 30)) * Math.PI / 180);
        return (2 * Math.PI * hertz * Draw.Between(random, 0.7, 1.4), Draw.Between(random, 0.01, 0.03), share * Draw.Between(random, 0.3, 1.5), cos, sin);
    }

    /// <summary>Gives the tray's acceleration for a force apart and a push, and the opening's for a force apart, per newton.</summary>
    private (Complex Apart, Complex Push, Complex Opening) Rigid(Complex s)
    {
        var spring = Parts.Stiffness + (Parts.Damping * s);
        var a = (Parts.TrayKilograms * s * s) + spring;
        var d = (Parts.BodyKilograms * s * s) + spring + Parts.MountStiffness + (Parts.MountDamping * s);
        var determinant = (a * d) - (spring * spring);
        return (s * s * (d - spring) / determinant, s * s * d / determinant, (d - spring + a - spring) / determinant);
    }

    private void FillPull(double firing)
    {
        var circuit = new FluxCircuit(new()
        {
            Kind = kind,
            FiringDegrees = firing,
            ResistanceRatio = resistance,
            BiasFlux = kind == DriveKind.MagnetBiased ? bias : 0,
        });
        const double Step = 2 * Math.PI / Table;
        for (var i = 0; i < 8 * Table; i++)
        {
            pull[i % Table] = circuit.Step(i * Step, (i + 1) * Step, 1, 1, true).Start;
        }

        // What is left of the coil's switching on makes both half waves differ, which in the steady state they do not.
        for (var i = 0; i < Table / 2 && kind == DriveKind.FullWave; i++)
        {
            pull[i] = pull[i + (Table / 2)] = (pull[i] + pull[i + (Table / 2)]) / 2;
        }

        StudyWave.Limit(pull, Hertz / strokes, fine);
    }

    private void Scale()
    {
        Complex first = 0;
        for (var i = 0; i < Table; i++)
        {
            first += pull[i] * Complex.FromPolarCoordinates(2.0 / Table, -2 * Math.PI * strokes * i / Table);
        }

        var s = new Complex(0, 2 * Math.PI * Hertz);
        var (apart, _, opening) = Rigid(s);
        scale = Fundamental / Complex.Abs(first * apart);
        for (var i = 0; i < Table; i++)
        {
            pull[i] *= scale;
            PeakPull = Math.Max(PeakPull, pull[i]);
        }

        TrayMotion = -scale * first * apart / (s * s);
        Opening = -scale * first * opening;
    }
}
