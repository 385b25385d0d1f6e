using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Magnet;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The whole simulated feeder, stepped at a fixed rate: what moves, and what the place of the sensor feels of it.</summary>
internal sealed class FeederMachine
{
    private const double PitchDamping = 0.3;
    private readonly FeederScenario scenario;
    private readonly double step, start, restGap, cos, sin;
    private readonly double massOfTray;
    private readonly FaultPhysics? faults;
    private readonly FaultForces? forces;
    private readonly MainsSupply mains;
    private readonly FluxCircuit flux;
    private readonly TwoMassMotion motion;
    private readonly ModalOscillator pitch;
    private readonly ModalOscillator rock;
    private readonly (bool OnTray, double InPhase, double Late)[] places;
    private readonly (TrayMode Mode, ModalOscillator Oscillator, double Cos, double Sin)[] modes;
    private readonly FallingPieces pieces;
    private readonly PassingLumps lumps;
    private readonly NeighbourHum hum;
    private (double Force, double Modal) material;
    private double lump;
    private long steps;

    public FeederMachine(FeederScenario scenario, double stepSeconds, double startSeconds, MagnetScale scale, bool contact, FeederMachine? before = null)
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
        faults = scenario.Physics;
        forces = FaultForces.Of(faults, parts, sag);
        motion.Set(before?.motion.Tray ?? -sag, before?.motion.TrayVelocity ?? 0, before?.motion.Body ?? 0, before?.motion.BodyVelocity ?? 0);
        restGap = scenario.Feeder.RestGapMetres is { } gap ? gap + sag : double.PositiveInfinity;
        (sin, cos) = Math.SinCos(MachineBuild.LineAngle(scenario));
        mains = new MainsSupply(scenario, step, before?.mains);
        pitch = before?.pitch ?? new ModalOscillator(scenario.Feeder.Drive.NominalHz, PitchDamping, step);
        rock = before?.rock ?? new ModalOscillator(scenario.Feeder.Drive.NominalHz, PitchDamping, step);
        places = [.. scenario.Sensors.Select(place =>
        {
            // Ahead by an angle: so much in phase with the middle of the tray, less so much a quarter cycle late.
            var (s, c) = Math.SinCos(place.PhaseDegrees * Math.PI / 180);
            return (SensorPlaces.IsOnTray(place.Place), place.StrokeScale * c, -place.StrokeScale * s);
        })];
        PlaceAccelerations = new (double X, double Y, double Z)[places.Length];
        PlaceDisplacements = new (double X, double Z)[places.Length];
        modes = [.. scenario.Machine.Modes.Select(mode =>
        {
            var (s, c) = Math.SinCos(mode.AngleDegrees * Math.PI / 180);
            var kept = before?.modes.FirstOrDefault(old => old.Mode.FrequencyHz == mode.FrequencyHz && old.Mode.DampingRatio == mode.DampingRatio).Oscillator;
            return (mode, kept ?? new ModalOscillator(mode.FrequencyHz, mode.DampingRatio, step), c, s);
        })];
        pieces = before?.pieces ?? new FallingPieces(scenario.Material, new SeededRandom(scenario.Seed, 2), startSeconds);
        lumps = before?.lumps ?? new PassingLumps(scenario.Material, new SeededRandom(scenario.Seed, 3), step);
        hum = new NeighbourHum(scenario.Neighbours, new SeededRandom(scenario.Seed, 7));
        Strikes = before?.Strikes ?? (contact && scenario.Strike is { } strike
            ? new StrikePulses(strike, scale.PeakPull, scenario.Feeder.Drive.NominalHz, new SeededRandom(scenario.Seed, 4))
            : null);
    }

    public double Seconds => start + (steps * step);

    /// <summary>Gets the phase of the stroke in radians.</summary>
    public double Phase => mains.Phase * scenario.Feeder.Drive.StrokesPerCycle;

    public double DriveHz => mains.FrequencyHz * scenario.Feeder.Drive.StrokesPerCycle;

    /// <summary>Gets when the feeder was switched on; null while it is off.</summary>
    public double? OnSince { get; private set; }

    public double Pull { get; private set; }

    /// <summary>Gets the mains' voltage at this instant over the r.m.s. of full voltage, times 1/√2; 0 where no channel takes it.</summary>
    public double LineVoltage { get; private set; }

    /// <summary>Gets whether the switch conducts.</summary>
    public bool Conducting => flux.Conducting;

    /// <summary>Gets the force of armature on core in N, of the closed gap and of prescribed blows together.</summary>
    public double ContactForce { get; private set; }

    public StrikePulses? Strikes { get; }

    /// <summary>Gets the acceleration at the sensor in m/s², without gravity, along the tray's axes.</summary>
    public (double X, double Y, double Z) Acceleration { get; private set; }

    /// <summary>Gets the displacement at the sensor in metres, in the tray's x-z plane.</summary>
    public (double X, double Z) Displacement { get; private set; }

    /// <summary>Gets the acceleration at each of several sensors, as <see cref="Acceleration"/>.</summary>
    public (double X, double Y, double Z)[] PlaceAccelerations { get; }

    /// <summary>Gets the displacement at each of several sensors, as <see cref="Displacement"/>.</summary>
    public (double X, double Z)[] PlaceDisplacements { get; }

    public void Step()
    {
        double from = Seconds, middle = from + (step / 2), to = from + step;
        OnSince = mains.OnSince(from);
        var voltage = mains.Voltage(from);
        var phase = mains.Phase;
        var gap = double.IsFinite(restGap) ? Math.Max(0.05, 1 + (motion.Opening / restGap)) : 1;
        var magnetic = faults is null ? gap : gap * faults.GapFactor;
        var pull = flux.Step(phase, mains.Advance(), voltage, magnetic, OnSince is not null);
        if (faults is not null)
        {
            var stronger = faults.PullAt(magnetic);
            pull = (pull.Start * stronger, pull.Middle * stronger, pull.End * stronger);
        }

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
        if (forces is not null)
        {
            var (inside, outside) = forces.At(motion, step);
            between = (between.Start - inside, between.Middle - inside, between.End - inside);
            (push0, push1) = (push0 + outside, push1 + outside);
        }

        motion.Step(step, between, (push0, (push0 + push1) / 2, push1));
        Pull = pull.End;
        LineVoltage = scenario.SupplyChannel is null ? 0 : voltage * Math.Sin(mains.Phase);
        ContactForce = motion.ContactForce + blow;
        steps++;
        Feel();
    }

    private void Feel()
    {
        pitch.Step(-scenario.Machine.EllipseRatio * 2 * PitchDamping * motion.TrayAcceleration);
        double s = motion.Tray, a = motion.TrayAcceleration, p = pitch.Displacement, b = pitch.Acceleration;
        double x = (s * cos) - (p * sin), z = (s * sin) + (p * cos);
        var floor = hum.At(Seconds);
        var (ax, ay, az) = floor;
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
        if (places.Length > 0)
        {
            FeelPlaces(floor);
        }
    }

    /// <summary>Lets the tray rock, driven by its own motion, and gives each place its share; the body moves as the two masses have it.</summary>
    private void FeelPlaces((double X, double Y, double Z) floor)
    {
        rock.Step(-2 * PitchDamping * motion.TrayAcceleration);
        for (var i = 0; i < places.Length; i++)
        {
            var (onTray, inPhase, late) = places[i];
            if (!onTray)
            {
                double y = motion.Body, d = motion.BodyAcceleration;
                PlaceDisplacements[i] = (y * cos, y * sin);
                PlaceAccelerations[i] = (floor.X + (d * cos), floor.Y, floor.Z + (d * sin));
                continue;
            }

            var s = ((inPhase - 1) * motion.Tray) + (late * rock.Displacement);
            var a = ((inPhase - 1) * motion.TrayAcceleration) + (late * rock.Acceleration);
            PlaceDisplacements[i] = (Displacement.X + (s * cos), Displacement.Z + (s * sin));
            PlaceAccelerations[i] = (Acceleration.X + (a * cos), Acceleration.Y, Acceleration.Z + (a * sin));
        }
    }
}
