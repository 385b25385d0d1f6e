using System.Numerics;
using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>
/// One run of some seconds: forces laid out in time, carried to the sensor by transfer functions over the whole run at once (the run wraps round), with the
/// sensor's noise, steps, rails and connector after it.
/// </summary>
internal sealed class StudyRun
{
    /// <summary>Seconds at the begin in which the run's end may ring: it wraps round.</summary>
    public const double Skipped = 0.5;

    private const double RangeG = 64;

    /// <summary>So long after the last of the strikes that end they may ring.</summary>
    private const double RingSeconds = 0.3;

    private readonly Random random;
    private readonly StudyKind kind;
    private readonly int supply, strokes, rate, count, fine;
    private readonly double seconds, hertz;
    private readonly bool elsewhere;
    private readonly bool ends;
    private readonly SupplyWander wander;
    private readonly double turn;
    private readonly double supplied;
    private StudyMachine? loaded;
    private double loadSeconds;
    private double begin;
    private StudyContact? contact;
    private readonly Complex[] force;
    private readonly Complex[] sample;

    public StudyRun(StudyKind kind, int supplyHz, int strokesPerCycle, int rateHz, int seed, StudyWorkspace space, bool quieter = false, bool elsewhere = false, bool ends = false)
    {
        random = new Random(seed);
        (this.kind, supply, strokes, rate) = (kind, supplyHz, strokesPerCycle, rateHz);
        (this.elsewhere, this.ends) = (elsewhere, ends);
        count = rateHz switch { <= 1200 => 4096, <= 2400 => 8192, <= 4800 => 16384, _ => 32768 };
        fine = rateHz <= 4800 ? 32768 : 65536;
        seconds = (double)count / rateHz;

        // A whole number of cycles, a little off the nominal one: the sensor's clock.
        var unit = 3 * strokes;
        var cycles = unit * ((int)Math.Round(supply * strokes * seconds / unit) + random.Next(-1, 2));
        hertz = cycles / seconds;
        force = space.Values(fine);
        sample = count == fine ? new Complex[count] : space.Values(count);

        // What begins, begins here; at the same instant the supply may change, and the load at some other.
        wander = new(StrikeStudy.Hash(seed, 1), seconds);
        turn = Draw.Between(random, 1.9, 2.4);
        supplied = Draw.Coin(random, 0.3) ? Draw.Between(random, 0.9, 1.1) : 1;
        Machine = new(random, supply, strokes, hertz, rate, fine / seconds, FiringDegrees());
        if (Draw.Coin(random, 0.3))
        {
            (loaded, loadSeconds) = (Machine.Loaded(Draw.Between(random, 0.93, 1.07)), Draw.Between(random, 0.8, seconds - 0.8));
        }

        Lay();
        Carry(space);
        Finish(quieter);
    }

    public StudyMachine Machine { get; }

    /// <summary>Gets the length in seconds.</summary>
    public double Seconds => seconds;

    /// <summary>Gets from when on windows count, in seconds: of strikes their begin, of all else the time when the run's end no longer rings in it; infinite where the run is none of its kind.</summary>
    public double From { get; private set; } = Skipped;

    /// <summary>Gets the peak force of the strikes over the magnet's peak pull.</summary>
    public double ForceShare { get; private set; }

    /// <summary>Gets the number of cycles between strikes.</summary>
    public int Every { get; private set; } = 1;

    public double NoiseG { get; private set; }

    /// <summary>Gets or sets the sensor's full scale in m/s² where it is known.</summary>
    public double? FullScale { get; set; }

    /// <summary>Gets the samples of each axis in m/s².</summary>
    public double[][] Axes { get; } = new double[3][];

    /// <summary>Says whether a window, in seconds of the run, shows what the run is of.</summary>
    public bool Counts(double start, double end) =>
        start >= From && end < seconds - 0.05 && (contact is null || contact.Strikes(start, end, kind == StudyKind.FaintContact ? 0.15 : 0.3));

    /// <summary>Gives the supply's pull over the usual one, at a time in seconds.</summary>
    private double Supply(double t) => t < turn ? 1 : supplied;

    /// <summary>Gives the cycles since the begin.</summary>
    private double Cycles(double t) => (hertz * t) + (strokes * wander.At(t));

    /// <summary>Gives the time of so many cycles.</summary>
    private double Time(double cycles) => (cycles - (strokes * wander.At(cycles / hertz))) / hertz;

    private double FiringDegrees() =>
        kind == StudyKind.PhaseCut || (kind != StudyKind.Healthy && Draw.Coin(random)) ? Draw.Between(random, 30, 150) : 0;

    private void Lay()
    {
        Array.Clear(force);
        if (kind is StudyKind.StrikeContact or StudyKind.FaintContact)
        {
            contact = new(random, Machine, seconds, fine, turn, Supply, wander);
            var (low, high) = kind == StudyKind.FaintContact ? (0.15, 0.30) : (0.30, 2.0);
            (From, Every) = (contact.Lay(force, low, high) ? turn : double.PositiveInfinity, 0);
            ForceShare = contact.ForceShare;
            return;
        }

        // A controller that is turned: another cut from an instant on, the stroke with it.
        var other = kind == StudyKind.PhaseCut && Draw.Coin(random) ? Machine.Fired(Math.Clamp(Machine.Firing + Draw.Between(random, -40, 40), 30, 150)) : Machine;
        var swing = kind == StudyKind.Lumps ? Draw.Between(random, 0, 0.05) : 0.0;
        var (swingHz, swingPhase) = (Draw.Between(random, 1, 6), Draw.Between(random, 0, 6));
        for (var i = 0; i < fine; i++)
        {
            var t = i * seconds / fine;
            var pull = Supply(t) * (t < turn ? Machine : other).Pull(Cycles(t));
            force[i] = new(-pull * (swing == 0 ? 1 : 1 + (swing * Math.Sin((2 * Math.PI * Math.Round(swingHz * seconds) / seconds * t) + swingPhase))), 0);
        }

        // What looks like a strike is there all the time, or begins as a strike does.
        begin = Draw.Coin(random) ? 0 : turn;
        switch (kind)
        {
            case StudyKind.Impacts:
                LayImpacts();
                break;
            case StudyKind.Rattle:
                LayRattle();
                break;
            case StudyKind.Lumps:
                LayLumps();
                break;
            case StudyKind.Rub:
                LayRub();
                break;
            case < StudyKind.Healthy:
                LayStrikes();
                break;
        }
    }

    /// <summary>Lays blows about the closest approach from an onset to the end.</summary>
    private void LayStrikes()
    {
        Every = kind is StudyKind.StrikeEverySecond or StudyKind.FaintEverySecond ? 2 : kind is StudyKind.StrikeEveryThird or StudyKind.FaintEveryThird ? 3 : 1;
        ForceShare = kind >= StudyKind.Faint ? Draw.Between(random, 0.15, 0.30) : Draw.Log(random, 0.30, 1.5);
        From = ends ? turn + RingSeconds : turn;
        var (length, spread) = (Draw.Log(random, 0.3e-3, 1e-3), Draw.Between(random, 0, 0.3));
        var nearest = Machine.Nearest + (elsewhere ? Draw.Between(random, -0.1, 0.1) : 0);
        var (first, last) = ends ? (0, turn) : (turn, seconds);
        for (var cycle = Math.Ceiling(first * hertz); cycle < hertz * last; cycle += Every)
        {
            var peak = ForceShare * Machine.PeakPull * (1 + (spread * Draw.Between(random, -1, 1)));
            var middle = Time(cycle + nearest) + (2e-5 * Draw.Normal(random));
            Pulse(middle - (length / 2), length, peak, 1);
        }
    }

    private void LayImpacts()
    {
        var (rateHz, length) = (Draw.Log(random, 0.5, 60), Draw.Between(random, 0.2e-3, 1e-3));
        var most = Machine.Parts.TrayKilograms * Machine.Fundamental;
        var mean = most * Draw.Log(random, 0.02, 1);
        for (var t = begin + (Draw.Exponential(random) / rateHz); t < seconds; t += Draw.Exponential(random) / rateHz)
        {
            Pulse(t, length, -Math.Min(most, mean * Draw.Exponential(random)) * Machine.LineSin, 2);
        }
    }

    /// <summary>A guard that hits the tray: at intervals of its own, or about once a cycle at a phase that wanders.</summary>
    private void LayRattle()
    {
        var (peak, length) = (Machine.PeakPull * Draw.Log(random, 0.05, 0.6), Draw.Between(random, 0.2e-3, 1e-3));
        var own = Draw.Coin(random);
        var (interval, scatter) = (Draw.Between(random, 0.5, 2.5) / hertz, Draw.Between(random, 0.15, 0.5));
        var loose = Draw.Between(random, 0.15, 0.5);
        for (double t = begin, cycle = Math.Ceiling(begin * hertz); t < seconds && cycle < seconds * hertz - 1; cycle++)
        {
            var at = own ? t : Time(cycle + 0.5 + (loose * Draw.Between(random, -1, 1)));
            Pulse(at, length, peak * Math.Exp(0.4 * Draw.Normal(random)), 2);
            t += interval * Math.Max(0.1, 1 + (scatter * Draw.Normal(random)));
        }
    }

    private void LayLumps()
    {
        var shape = new ModalOscillator(Draw.Between(random, 1, 6), 0.3, seconds / 4096);
        var lumps = new double[4096];
        for (var i = -2048; i < 4096; i++)
        {
            shape.Step(Draw.Normal(random));
            lumps[Math.Max(0, i)] = shape.Displacement;
        }

        var scale = Draw.Log(random, 0.01, 0.5) * Machine.PeakPull / Math.Sqrt(lumps.Average(value => value * value));
        for (var i = 0; i < fine; i++)
        {
            var at = i * 4096.0 / fine;
            var n = (int)at;
            force[i] += new Complex(0, scale * (lumps[n] + ((at - n) * (lumps[(n + 1) % 4096] - lumps[n]))));
        }
    }

    /// <summary>Friction over a part of the stroke: it builds up over a short slide (Dahl's model, from memory) and turns about with the motion.</summary>
    private void LayRub()
    {
        const int Points = StudyWave.Points;
        var peak = Machine.PeakPull * Draw.Log(random, 0.01, 0.10);
        var (part, slide, ramp) = (Draw.Between(random, 0.2, 1), Draw.Between(random, 40e-6, 150e-6) / Machine.Stroke, Draw.Coin(random) ? 1 : Draw.Between(random, 0.2, 0.5));
        var side = Draw.Coin(random) ? 1 : -1;
        var friction = new double[Points];
        double held = 0, last = 0;
        for (var i = 0; i < 3 * Points; i++)
        {
            var x = 0.5 * Math.Cos((2 * Math.PI * i / Points) + Machine.TrayMotion.Phase);
            var moved = i == 0 ? 0 : x - last;
            last = x;
            held = Math.Clamp(held + (moved / slide * (1 - (Math.Sign(moved) * held))), -1, 1);
            var depth = Math.Clamp(((side * x) - 0.5 + part) / part / ramp, 0, 1);
            friction[i % Points] = -peak * depth * held;
        }

        StudyWave.Limit(friction, hertz, fine / seconds);
        for (var i = (int)Math.Ceiling(begin / seconds * fine); i < fine; i++)
        {
            force[i] += new Complex(0, StudyWave.At(friction, Cycles(i * seconds / fine)));
        }
    }

    /// <summary>Adds a half-sine blow, apart (1) or on the tray (2).</summary>
    private void Pulse(double start, double length, double peak, int which)
    {
        var step = seconds / fine;
        for (var i = (int)Math.Ceiling(start / step); i * step < start + length; i++)
        {
            var value = peak * Math.Sin(Math.PI * ((i * step) - start) / length);
            var at = ((i % fine) + fine) % fine;
            force[at] += which == 1 ? new Complex(value, 0) : new Complex(0, value);
        }
    }

    private void Carry(StudyWorkspace space)
    {
        space.Transform(fine).Transform(force);
        if (loaded is null)
        {
            Carry(space, Machine, sample);
            return;
        }

        // The load changes within a third of a second.
        var before = new Complex[count];
        Carry(space, Machine, before);
        Carry(space, loaded, sample);
        for (var i = 0; i < count; i++)
        {
            var after = Math.Clamp((((double)i / rate) - loadSeconds) / 0.3, 0, 1);
            sample[i] = (after * sample[i]) + ((1 - after) * before[i]);
        }
    }

    private void Carry(StudyWorkspace space, StudyMachine machine, Complex[] into)
    {
        Array.Clear(into);
        var last = (int)(0.58 * count);
        for (var k = 1; k <= last; k++)
        {
            var (a, b) = (force[k], Complex.Conjugate(force[fine - k]));
            var (apart, push) = ((a + b) / 2, (a - b) / new Complex(0, 2));
            var t = machine.Transfer(k / seconds);
            var share = (double)k / count;
            var keep = share <= 0.42 ? 1 : Math.Pow(Math.Cos(Math.PI / 2 * (share - 0.42) / 0.16), 2);
            var (x, z) = (keep / fine * ((apart * t.ApartX) + (push * t.PushX)), keep / fine * ((apart * t.ApartZ) + (push * t.PushZ)));

            // x in the real, z in the imaginary part of one transform; what lies above half the rate folds back by itself.
            into[k % count] += x + (Complex.ImaginaryOne * z);
            into[(count - k) % count] += Complex.Conjugate(x) + (Complex.ImaginaryOne * Complex.Conjugate(z));
        }

        space.Transform(count).Transform(into, back: true);
    }

    private void Finish(bool quieter)
    {
        NoiseG = quieter ? Draw.Log(random, 0.0001, 0.020) : Draw.Between(random, 0.001, 0.020);
        var noise = NoiseG * Gravity.Standard;
        var step = 2 * RangeG * Gravity.Standard / 65536;
        var (deckSin, deckCos) = Math.SinCos(Draw.Between(random, 0, 8) * Math.PI / 180);
        Axes[0] = [.. sample.Select(value => value.Real - (Gravity.Standard * deckSin))];
        Axes[1] = new double[count];
        Axes[2] = [.. sample.Select(value => value.Imaginary + (Gravity.Standard * deckCos))];
        if (kind == StudyKind.Neighbour)
        {
            AddNeighbour();
        }

        var peak = Axes.Max(axis => axis.Max(Math.Abs));
        var rail = kind == StudyKind.Clipped ? peak * Draw.Between(random, 0.5, 0.98) : double.PositiveInfinity;
        var blurred = kind == StudyKind.Clipped && Draw.Coin(random, 0.4);
        FullScale = kind != StudyKind.Clipped ? RangeG * Gravity.Standard : Draw.Coin(random) ? rail : null;
        foreach (var axis in Axes)
        {
            for (var i = 0; i < axis.Length; i++)
            {
                var value = blurred ? Math.Clamp(axis[i], -rail, rail) : axis[i];
                value = Math.Round((value + (noise * Draw.Normal(random))) / step) * step;
                axis[i] = blurred ? value : Math.Clamp(value, -rail, rail);
            }
        }

        if (kind == StudyKind.Spikes)
        {
            AddSpikes();
        }
    }

    private void AddNeighbour()
    {
        var other = hertz * (1 + ((Draw.Coin(random) ? 1 : -1) * Draw.Log(random, 0.002, 0.03)));
        var (peak, slope) = (Draw.Between(random, 0.05, 0.5) * Gravity.Standard, Draw.Between(random, 0.3, 1.5));
        for (var k = 1; k * other < 0.45 * rate; k++)
        {
            if (k > 1 && Draw.Coin(random))
            {
                continue;
            }

            var (sin, cos) = Math.SinCos(Draw.Between(random, 0, Math.PI));
            var amplitude = peak * Math.Pow(k, -slope) * (k == 1 ? 1 : random.NextDouble());
            var phase = Draw.Between(random, 0, 2 * Math.PI);
            for (var i = (int)(begin * rate); i < count; i++)
            {
                var value = amplitude * Math.Sin((2 * Math.PI * k * other * i / rate) + phase);
                Axes[0][i] += cos * value;
                Axes[2][i] += sin * value;
            }
        }
    }

    private void AddSpikes()
    {
        var (rateHz, most) = (Draw.Log(random, 0.2, 40), RangeG * Gravity.Standard * Draw.Log(random, 0.02, 1));
        var drop = Draw.Coin(random, 0.3);
        var only = random.Next(4);
        for (var t = begin + (Draw.Exponential(random) / rateHz); t < seconds; t += Draw.Exponential(random) / rateHz)
        {
            var (from, length, height) = ((int)(t * rate), random.Next(1, 4), most * Draw.Between(random, -1, 1));
            for (var axis = 0; axis < 3; axis++)
            {
                for (var i = from; i < Math.Min(count, from + length) && (only == 3 || only == axis); i++)
                {
                    Axes[axis][i] = drop ? 0 : Math.Clamp(Axes[axis][i] + height, -RangeG * Gravity.Standard, RangeG * Gravity.Standard);
                }
            }
        }
    }
}
