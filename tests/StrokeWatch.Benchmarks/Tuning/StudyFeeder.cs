using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Magnet;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Benchmarks.Tuning;

/// <summary>
/// A feeder as it truly is, beside the file that describes it: two masses on soft mounts, leaves whose clamps give way and grow stiffer less than leaves are added, a magnet
/// fed through a switch with all its harmonics and a pull that goes with the gap. Run in time, not by the fit's formulas.
/// </summary>
internal sealed class StudyFeeder
{
    private const int Steps = 96;
    private readonly double penetration, frontEfficiency, rearEfficiency, frontClamp, rearClamp, loss, mountHz, gap;
    private readonly double tray, body, supplyHz;
    private readonly MagnetParameters magnet;
    private double pull;

    private StudyFeeder(Random random)
    {
        var kind = Strikes.Draw.Coin(random, 0.3) ? DriveKind.FullWave : Strikes.Draw.Coin(random, 0.3) ? DriveKind.MagnetBiased : DriveKind.HalfWave;
        supplyHz = Strikes.Draw.Coin(random) ? 50 : 60;
        var drive = new DriveDescription(supplyHz, kind == DriveKind.FullWave ? 2 : 1, false);
        magnet = new MagnetParameters { Kind = kind, ResistanceRatio = Strikes.Draw.Log(random, 0.03, 0.15), BiasFlux = kind == DriveKind.MagnetBiased ? Strikes.Draw.Between(random, 0.8, 1.5) : 0 };
        var low = Strikes.Draw.Between(random, 1.35, 1.7) / (kind == DriveKind.FullWave ? 4 : 1);
        var band = new StrokeBand(Length.FromMillimetres(low), Length.FromMillimetres(1.083 * low), Length.FromMillimetres(1.167 * low));
        gap = band.Limit.Metres * Strikes.Draw.Between(random, 1.2, 2.5);

        // Masses: what the file says, and what the machine weighs by now.
        var (fileTray, ratio) = (Strikes.Draw.Log(random, 8, 80), Strikes.Draw.Between(random, 1.5, 3));
        var designTray = fileTray * Math.Exp(0.04 * Strikes.Draw.Normal(random));
        tray = designTray * (Strikes.Draw.Coin(random, 0.35) ? Strikes.Draw.Between(random, 0.95, 1.15) : 1);
        body = fileTray * ratio * Math.Exp(0.05 * Strikes.Draw.Normal(random));

        // Leaves and clamps.
        var thickness = Strikes.Draw.Between(random, 2.5, 6) is var t ? Math.Round(2 * t) / 2 : 0;
        var step = Strikes.Draw.Coin(random, 0.3) ? 0.5 : 1;
        var (frontCount, rearCount) = (random.Next(2, 7), random.Next(3, 8));
        penetration = Strikes.Draw.Between(random, 0.2, 1.6);
        frontEfficiency = Strikes.Draw.Between(random, 0.8, 1);
        rearEfficiency = frontEfficiency * Math.Exp(0.04 * Strikes.Draw.Normal(random));
        var length = Math.Round(thickness * Strikes.Draw.Between(random, 25, 45));
        var springs = new SpringDescription
        {
            Modulus = 205e9,
            LengthMetres = length / 1e3,
            WidthMetres = 1,
            Front = [new(thickness / 1e3, frontCount)],
            Rear = [new(thickness / 1e3, rearCount)],
            Stock = [(thickness - step) / 1e3, thickness / 1e3, (thickness + step) / 1e3],
            MaxRearLeaves = rearCount + random.Next(3, 6),
        };

        // The width is what the designer chose to have the machine tuned with the rear stack of the drawing.
        var tuned = Strikes.Draw.Between(random, 1.035, 1.12);
        var wanted = TwoMass.StiffnessFor(tuned * drive.NominalHz, designTray, body);
        (frontClamp, rearClamp) = (wanted * Strikes.Draw.Log(random, 4, 20), wanted * Strikes.Draw.Log(random, 4, 20));
        double least = 1e-4, most = 10;
        for (var i = 0; i < 80; i++)
        {
            springs = springs with { WidthMetres = Math.Sqrt(least * most) };
            (least, most) = Stiffness(springs, springs.Rear, 0) < wanted ? (springs.WidthMetres, most) : (least, springs.WidthMetres);
        }

        pull = 0.1 * band.High.Metres * wanted;
        loss = Strikes.Draw.Log(random, 0.008, 0.04);
        mountHz = Strikes.Draw.Between(random, 3, 6);
        Feeder = new() { Name = "Study feeder", Drive = drive, Band = band, Springs = springs, Masses = new(Math.Round(fileTray, 1), Math.Round(fileTray * ratio, 1)), RestGapMetres = gap };
        Gain = 1 + (0.005 * Strikes.Draw.Normal(random));

        // The magnet makes the designed stroke with the designed tray, then ages: supply, gap, coil.
        var middle = 0.5 * (band.Low.Metres + band.High.Metres) * Strikes.Draw.Between(random, 0.985, 1.015);
        for (var i = 0; i < 6; i++)
        {
            pull *= middle / Run(Stiffness(springs, springs.Rear, 0), designTray);
        }

        pull *= Strikes.Draw.Between(random, 0.88, 1.12);
    }

    /// <summary>Gets what the file says.</summary>
    public FeederDescription Feeder { get; }

    /// <summary>Gets the sensor's gain, which every reading shares.</summary>
    public double Gain { get; }

    /// <summary>Gets the stack that the feeder is found with.</summary>
    public IReadOnlyList<LeafLayer> Found { get; private set; } = [];

    /// <summary>Draws a feeder that needs tuning: out of its band, or on the reverse side.</summary>
    public static StudyFeeder Draw(int seed)
    {
        var random = new Random(seed);
        while (true)
        {
            var feeder = new StudyFeeder(random);
            for (var attempt = 0; attempt < 20; attempt++)
            {
                feeder.Found = feeder.Meddled(random);
                var stroke = feeder.Stroke(feeder.Found, 0);
                var inBand = stroke >= feeder.Feeder.Band.Low.Metres && stroke <= feeder.Feeder.Band.High.Metres;
                if (stroke < 1.5 * feeder.Feeder.Band.Limit.Metres && stroke > 0.4 * feeder.Feeder.Band.Low.Metres && (!inBand || !feeder.Normal(feeder.Found, 0)))
                {
                    return feeder;
                }
            }
        }
    }

    /// <summary>Gives the stroke in metres, peak to peak, of the whole waveform with a rear stack as it is clamped.</summary>
    public double Stroke(IReadOnlyList<LeafLayer> rear, double clamping) => Run(Stiffness(Feeder.Springs!, rear, clamping), tray);

    /// <summary>Says whether more stiffness lowers the stroke.</summary>
    public bool Normal(IReadOnlyList<LeafLayer> rear, double clamping)
    {
        var stiffness = Stiffness(Feeder.Springs!, rear, clamping);
        return Run(1.002 * stiffness, tray) < Run(0.998 * stiffness, tray);
    }

    /// <summary>Gives frequency and damping of the free decay: eigenvalues of the motion (MathNet.Numerics).</summary>
    public (double Hz, double Damping) Free(IReadOnlyList<LeafLayer> rear, double clamping) => FreeModes.Highest(Parts(Stiffness(Feeder.Springs!, rear, clamping), tray));

    /// <summary>Says whether any stack of the stock lands in the band on the normal side, whether its rear is clamped by a share stiffer or softer than usual.</summary>
    public bool SomeFit(double share)
    {
        var (springs, stock) = (Feeder.Springs!, new StackStock(Feeder.Springs!, Found));
        foreach (var counts in stock.All())
        {
            var stack = stock.Stack(counts);
            var stiffness = Stiffness(springs, stack, 0);
            if (Parts(stiffness, tray) is var parts && FreeModes.Highest(parts).DampedHz is var hertz && hertz > Feeder.Drive.NominalHz && hertz < 1.3 * Feeder.Drive.NominalHz
                && InBand(stack, share) && InBand(stack, -share))
            {
                return true;
            }
        }

        return false;
    }

    private bool InBand(IReadOnlyList<LeafLayer> rear, double clamping) => Stroke(rear, clamping) is var stroke && stroke >= Feeder.Band.Low.Metres && stroke <= Feeder.Band.High.Metres;

    /// <summary>Gives a rear stack that somebody has changed: leaves more or less, some of another thickness.</summary>
    private IReadOnlyList<LeafLayer> Meddled(Random random)
    {
        var springs = Feeder.Springs!;
        var count = Math.Clamp(springs.Rear[0].Count + random.Next(-1, 2), 1, springs.MaxRearLeaves!.Value);
        var other = Strikes.Draw.Coin(random, 0.5) ? random.Next(0, Math.Min(2, count) + 1) : 0;
        var thickness = springs.Stock[Strikes.Draw.Coin(random) ? 0 : 2];
        return Stacks.Tidy([new(springs.Rear[0].ThicknessMetres, count - other), new(thickness, other)]);
    }

    private double Stiffness(SpringDescription springs, IReadOnlyList<LeafLayer> rear, double clamping)
    {
        double Leaves(IReadOnlyList<LeafLayer> stack) => stack.Sum(layer => layer.Count * springs.Modulus * springs.WidthMetres * Math.Pow(layer.ThicknessMetres / (springs.LengthMetres + (penetration * layer.ThicknessMetres)), 3));
        var (front, back) = (frontEfficiency * Leaves(springs.Front), rearEfficiency * Math.Exp(clamping) * Leaves(rear));
        return (front * frontClamp / (front + frontClamp)) + (back * rearClamp / (back + rearClamp));
    }

    private MechanicalParameters Parts(double stiffness, double trayKilograms)
    {
        var mount = 2 * Math.PI * mountHz;
        return new()
        {
            TrayKilograms = trayKilograms,
            BodyKilograms = body,
            Stiffness = stiffness,
            Damping = MechanicalParameters.DampingFor(loss, stiffness, TwoMass.ReducedMass(trayKilograms, body)),
            MountStiffness = (trayKilograms + body) * mount * mount,
            MountDamping = 0.2 * (trayKilograms + body) * mount,
        };
    }

    /// <summary>Runs the machine from its linear motion until what is left of the start is under a thousandth, and gives the extent of a cycle.</summary>
    private double Run(double stiffness, double trayKilograms)
    {
        var parts = Parts(stiffness, trayKilograms);
        var circuit = new FluxCircuit(magnet with { ForceAtUnitFlux = pull });
        var motion = new TwoMassMotion(parts);
        var h = 1 / (supplyHz * Steps);
        var settle = 8 / (2 * Math.PI * loss * Feeder.Drive.NominalHz);
        var cycles = (int)Math.Ceiling(Math.Max(1.2, settle) * supplyHz) + 4;
        double low = 0, high = 0;
        for (var cycle = 0; cycle < cycles; cycle++)
        {
            for (var n = 0; n < Steps; n++)
            {
                var phase = 2 * Math.PI * cycle;
                var opening = Math.Max(0.1, 1 + (motion.Opening / gap));
                var force3 = circuit.Step(phase + (2 * Math.PI * n / Steps), phase + (2 * Math.PI * (n + 1) / Steps), 1, opening, true);
                motion.Step(h, force3, default);
                if (cycle == cycles - 1)
                {
                    (low, high) = n == 0 ? (motion.Tray, motion.Tray) : (Math.Min(low, motion.Tray), Math.Max(high, motion.Tray));
                }
            }
        }

        return high - low;
    }
}
