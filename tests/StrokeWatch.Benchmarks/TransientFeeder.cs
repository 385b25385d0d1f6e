using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Benchmarks;

/// <summary>
/// A feeder that is switched on and off again: two masses on leaf springs and soft mounts, three tray modes, a magnet whose flux builds up, dies and stays, and material
/// that goes on falling; its own frequency and damping are known from the eigenvalues of its motion.
/// </summary>
internal sealed class TransientFeeder
{
    private const double Angle = 20 * Math.PI / 180;
    private static readonly (double Hz, double Damping, double Share)[] Modes = [(380, 0.02, 0.4), (760, 0.015, 0.3), (1400, 0.015, 0.2)];

    public required double DriveHz { get; init; }

    public required double RateHz { get; init; }

    public required double TuningRatio { get; init; }

    public required double Damping { get; init; }

    /// <summary>Gets the stroke in metres, peak to peak, of the steady motion.</summary>
    public double Stroke { get; init; } = 1.5e-3;

    /// <summary>Gets the noise of each axis in m/s², r.m.s.</summary>
    public double Noise { get; init; }

    public double ImpactsPerSecond { get; init; }

    public double ImpactNewtons { get; init; } = 300;

    public double LumpNewtons { get; init; }

    /// <summary>Gets the flux that stays after the stop, as a share of the flux amplitude.</summary>
    public double Remanence { get; init; }

    /// <summary>Gets the cycles in which the flux dies away after the stop: 0 cuts at the end of the cycle.</summary>
    public double DyingCycles { get; init; }

    /// <summary>Gets whether the dying flux goes on alternating; otherwise it stays one-sided, as through a free-wheeling diode.</summary>
    public bool DyingAlternates { get; init; }

    /// <summary>Gets the cycles in which the flux builds up after the start, exponentially; 0 for at once.</summary>
    public double BuildUpCycles { get; init; }

    /// <summary>Gets the seconds of a soft start's straight ramp of the voltage; 0 for none.</summary>
    public double RampSeconds { get; init; }

    public double OnSeconds { get; init; } = 0.61;

    public double OffSeconds { get; init; }

    public double Seconds { get; init; }

    public int Seed { get; init; }

    /// <summary>Gives the moving parts: 35 kg of tray on 70 kg of body, mounts at 4.5 Hz.</summary>
    public MechanicalParameters Parts()
    {
        const double Tray = 35, Body = 70, MountHz = 4.5;
        var stiffness = TwoMass.StiffnessFor(TuningRatio * DriveHz, Tray, Body);
        var mount = 2 * Math.PI * MountHz;
        return new()
        {
            TrayKilograms = Tray,
            BodyKilograms = Body,
            Stiffness = stiffness,
            Damping = MechanicalParameters.DampingFor(Damping, stiffness, TwoMass.ReducedMass(Tray, Body)),
            MountStiffness = (Tray + Body) * mount * mount,
            MountDamping = 2 * 0.1 * (Tray + Body) * mount,
        };
    }

    /// <summary>Gives the samples of three axes, in m/s².</summary>
    public SampleBlock Run()
    {
        var parts = Parts();
        var random = new Random(Seed);
        var factor = Math.Max(4, (int)Math.Ceiling(24000 / RateHz));
        var step = 1 / (RateHz * factor);
        var motion = new TwoMassMotion(parts);
        var modes = Modes.Select(mode => new ModalOscillator(mode.Hz, mode.Damping, step)).ToArray();
        ModalOscillator[] filter = [new(0.35 * RateHz, 0.7, step), new(0.35 * RateHz, 0.7, step)];
        var lumps = new ModalOscillator(3, 0.3, step);
        var lumpScale = LumpNewtons / Math.Sqrt(step / (4 * 0.3 * Math.Pow(2 * Math.PI * 3, 3)));
        var count = (int)(Seconds * RateHz);
        var block = new SampleBlock(3, count) { RateHz = RateHz };
        var force = ForceAtUnitFlux(parts);
        var corner = Math.Pow(2 * Math.PI * 0.35 * RateHz, 2);
        var (sin, cos) = Math.SinCos(Angle);
        double before = Pull(0, force), impact = 0, peak = 0, impactEnd = -1, mains = 2 * Math.PI * random.NextDouble();
        for (var n = 0; n < count * factor; n++)
        {
            var t = n * step;
            if (random.NextDouble() < ImpactsPerSecond * step)
            {
                (peak, impactEnd) = (-ImpactNewtons * Math.Log(1 - random.NextDouble()), t + 0.4e-3);
            }

            var push = t < impactEnd ? -peak * Math.Sin(Math.PI * (impactEnd - t) / 0.4e-3) * sin : 0;
            if (LumpNewtons > 0)
            {
                lumps.Step(Gauss(random));
                push += lumps.Displacement * lumpScale;
            }

            var pull = Pull(t + step, force);
            motion.Step(step, (before, 0.5 * (before + pull), pull), (impact, 0.5 * (impact + push), push));
            (before, impact) = (pull, push);
            var along = motion.TrayAcceleration;
            for (var m = 0; m < modes.Length; m++)
            {
                modes[m].Step(Modes[m].Share * (push - pull) / parts.TrayKilograms);
                along += modes[m].Acceleration;
            }

            filter[0].Step(corner * along);
            filter[1].Step(corner * filter[0].Displacement);
            if (n % factor == 0)
            {
                var i = n / factor;
                block.Fill(0)[i] = cos * filter[1].Displacement + Noise * Gauss(random);
                block.Fill(1)[i] = Noise * Gauss(random);
                block.Fill(2)[i] = sin * filter[1].Displacement + Gravity.Standard + Noise * Gauss(random);
            }
        }

        block.SetCount(count);
        return block;
    }

    /// <summary>Gives the pull in N at flux 1 that makes the stroke: of the flux 1 − cos ωt the pull's fundamental is twice that.</summary>
    private double ForceAtUnitFlux(MechanicalParameters parts)
    {
        var ratio = 1 / TuningRatio;
        var magnified = 1 / Math.Sqrt(Math.Pow(1 - ratio * ratio, 2) + Math.Pow(2 * Damping * ratio, 2));
        var share = parts.BodyKilograms / (parts.TrayKilograms + parts.BodyKilograms);
        return Stroke / 2 / share * parts.Stiffness / magnified / 2;
    }

    private double Pull(double t, double force)
    {
        var flux = Flux(t);
        return force * flux * flux;
    }

    private double Flux(double t)
    {
        var cycles = (t - OnSeconds) * DriveHz;
        if (cycles <= 0)
        {
            return Remanence;
        }

        // The switch opens where the flux of its cycle ends.
        var off = Math.Ceiling((OffSeconds - OnSeconds) * DriveHz);
        var size = BuildUpCycles > 0 ? 1 - Math.Exp(-cycles / BuildUpCycles) : 1;
        size *= RampSeconds > 0 ? Math.Min(1, cycles / DriveHz / RampSeconds) : 1;
        if (cycles <= off)
        {
            return Math.Max(Remanence, size * (1 - Math.Cos(2 * Math.PI * cycles)));
        }

        var dying = DyingCycles > 0 ? Math.Exp(-(cycles - off) / DyingCycles) : 0;
        return Math.Max(Remanence, DyingAlternates ? dying * (1 - Math.Cos(2 * Math.PI * cycles)) : dying * 0.8 * Math.Min(1, (cycles - off) * 20));
    }

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
