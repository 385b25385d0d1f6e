using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Magnet;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The whole simulated feeder, stepped at a fixed rate: what moves, and what the place of the sensor feels of it.</summary>
internal sealed class FeederMachine
{
    private const double PitchDamping = 0.3;
    private readonly FeederScenario scenario;
    private readonly double step, start, restGap, cos, sin;
    private readonly double massOfTray;
    private readonly MainsSupply mains;
    private readonly FluxCircuit flux;
    private readonly TwoMassMotion motion;
    private readonly ModalOscillator pitch;
    private readonly (TrayMode Mode, ModalOscillator Oscillator, double Cos, double Sin)[] modes;
    private readonly FallingPieces pieces;
    private readonly PassingLumps lumps;
    private readonly NeighbourHum hum;
    private (double Force, double Modal) material;
    private double lump;
    private long steps;

    public FeederMachine(FeederScenario scenario, double stepSeconds, double startSeconds, MagnetScale scale, bool contact)
    {
        this.scenario = scenario;
        (step, start) = (stepSeconds, startSeconds);
        var magnet = MachineBuild.Magnet(scenario, scale.ForceAtUnitFlux);
        flux = new FluxCircuit(magnet);
        var stiffness = MachineBuild.Parts(scenario, false, 0).Stiffness;
        var sag = flux.Pull(0) / stiffness;
        var parts = MachineBuild.Parts(scenario, contact, sag);
        massOfTray = parts.TrayKilograms;
        motion = new TwoMassMotion(parts);
        motion.Set(-sag, 0, 0, 0);
        restGap = scenario.Feeder.RestGapMetres is { } gap ? gap + sag : double.PositiveInfinity;
        (sin, cos) = Math.SinCos(MachineBuild.LineAngle(scenario));
        mains = new MainsSupply(scenario, step);
        pitch = new ModalOscillator(scenario.Feeder.Drive.NominalHz, PitchDamping, step);
        modes = [.. scenario.Machine.Modes.Select(mode =>
        {
            var (s, c) = Math.SinCos(mode.AngleDegrees * Math.PI / 180);
            return (mode, new ModalOscillator(mode.FrequencyHz, mode.DampingRatio, step), c, s);
        })];
        pieces = new FallingPieces(scenario.Material, new SeededRandom(scenario.Seed, 2), startSeconds);
        lumps = new PassingLumps(scenario.Material, new SeededRandom(scenario.Seed, 3), step);
        hum = new NeighbourHum(scenario.Neighbours, new SeededRandom(scenario.Seed, 7));
        Strikes = contact && scenario.Strike is { } strike
            ? new StrikePulses(strike, scale.PeakPull, scenario.Feeder.Drive.NominalHz, new SeededRandom(scenario.Seed, 4))
            : null;
    }

    public double Seconds => start + (steps * step);

    /// <summary>Gets the phase of the stroke in radians.</summary>
    public double Phase => mains.Phase * scenario.Feeder.Drive.StrokesPerCycle;

    public double DriveHz => mains.FrequencyHz * scenario.Feeder.Drive.StrokesPerCycle;

    /// <summary>Gets when the feeder was switched on; null while it is off.</summary>
    public double? OnSince { get; private set; }

    public double Pull { get; private set; }

    /// <summary>Gets the force of armature on core in N, of the closed gap and of prescribed blows together.</summary>
    public double ContactForce { get; private set; }

    public StrikePulses? Strikes { get; }

    /// <summary>Gets the acceleration at the sensor in m/s², without gravity, along the tray's axes.</summary>
    public (double X, double Y, double Z) Acceleration { get; private set; }

    /// <summary>Gets the displacement at the sensor in metres, in the tray's x-z plane.</summary>
    public (double X, double Z) Displacement { get; private set; }

    public void Step()
    {
        double from = Seconds, middle = from + (step / 2), to = from + step;
        OnSince = mains.OnSince(from);
        var voltage = mains.Voltage(from);
        var phase = mains.Phase;
        var gap = double.IsFinite(restGap) ? Math.Max(0.05, 1 + (motion.Opening / restGap)) : 1;
        var pull = flux.Step(phase, mains.Advance(), voltage, gap, OnSince is not null);
        double blow = 0;
        var between = pull;
        if (Strikes is not null)
        {
            if (OnSince is not null)
            {
                Strikes.Watch(from, motion.OpeningSpeed, motion.TrayAcceleration - motion.BodyAcceleration);
            }

            blow = Strikes.Force(to);
            between = (pull.Start - Strikes.Force(from), pull.Middle - Strikes.Force(middle), pull.End - blow);
        }

        var (material0, lump0) = (material, lump);
        material = pieces.At(to);
        lump = lumps.Next();
        double push0 = lump0 - (material0.Force * sin), push1 = lump - (material.Force * sin);
        motion.Step(step, between, (push0, (push0 + push1) / 2, push1));
        Pull = pull.End;
        ContactForce = motion.ContactForce + blow;
        steps++;
        Feel();
    }

    private void Feel()
    {
        pitch.Step(-scenario.Machine.EllipseRatio * 2 * PitchDamping * motion.TrayAcceleration);
        double s = motion.Tray, a = motion.TrayAcceleration, p = pitch.Displacement, b = pitch.Acceleration;
        double x = (s * cos) - (p * sin), z = (s * sin) + (p * cos);
        var (ax, ay, az) = hum.At(Seconds);
        ax += (a * cos) - (b * sin);
        az += (a * sin) + (b * cos);
        var force = (ContactForce - Pull - material.Modal) / massOfTray;
        foreach (var (mode, oscillator, c, t) in modes)
        {
            oscillator.Step(mode.Share * force);
            double q = oscillator.Displacement, r = oscillator.Acceleration;
            x += q * c;
            z += q * t;
            ax += r * c;
            ay += r * mode.SideShare;
            az += r * t;
        }

        Displacement = (x, z);
        Acceleration = (ax, ay, az);
    }
}
