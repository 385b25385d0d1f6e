using System.Globalization;
using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Benchmarks;

/// <summary>Seeded stops and starts of feeders with material on the tray: how near natural frequency and damping come, and whether their uncertainties are right.</summary>
internal static class Transients
{
    /// <summary>What is made: how the drive comes and goes, and what falls on the tray.</summary>
    internal sealed record Kind(string Name, double Impacts = 0, double Lumps = 0, double Remanence = 0, double Dying = 0, bool Alternates = false, double BuildUp = 0);

    /// <summary>What a study found of the stops or the starts of a kind; the shares within the targets and the coverages are of those told.</summary>
    internal sealed record Result(int Runs, int Told, double Near, double DampingNear, double Covered, double DampingCovered, double Error95, double DampingError95, double Spread, double DampingSpread)
    {
        /// <summary>Gets the errors over the stated standard uncertainties, r.m.s.: 1 where those are right.</summary>
        public double Scatter { get; init; }

        /// <summary>Gets the same of the damping.</summary>
        public double DampingScatter { get; init; }
    }

    private static readonly double[] Rates = [1000, 1600, 3200, 4000, 6400];
    private static readonly double[] Hertz = [50, 60, 100, 120];

    public static Kind[] Kinds { get; } =
    [
        new("empty, clean cut"),
        new("impacts", Impacts: 60),
        new("lumps", Lumps: 80),
        new("impacts and lumps", Impacts: 40, Lumps: 60),
        new("remanence, free-wheeling current", Impacts: 20, Remanence: 0.05, Dying: 1),
        new("current dies alternating", Impacts: 20, Dying: 1, Alternates: true),
        new("force builds up", Impacts: 20, Lumps: 20, BuildUp: 1.5),
    ];

    /// <summary>Prints the table of stops and starts.</summary>
    public static int Run(string[] arguments)
    {
        var runs = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 400;
        var seed = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 1;
        var met = true;
        foreach (var kind in Kinds)
        {
            var (stops, starts) = Study(kind, runs, seed, arguments.Length > 2);
            met &= Say("stop ", kind, stops) & Say("start", kind, starts);
        }

        return met ? 0 : 1;
    }

    /// <summary>Studies one kind over random feeders.</summary>
    public static (Result Stops, Result Starts) Study(Kind kind, int runs, int seed, bool verbose = false)
    {
        var random = new Random(seed);
        List<(double, double, double, double)> stops = [], starts = [];
        for (var run = 0; run < runs; run++)
        {
            var hertz = Hertz[random.Next(Hertz.Length)];
            var damping = 0.005 * Math.Pow(12, random.NextDouble());
            var tuning = 0.85 + 0.3 * random.NextDouble();
            var on = Math.Max(2.0, 7 / (2 * Math.PI * hertz * damping) + 1.2);
            var feeder = new TransientFeeder
            {
                DriveHz = hertz,
                RateHz = Rates[random.Next(Rates.Length)],
                TuningRatio = tuning,
                Damping = damping,
                Stroke = (1 + random.NextDouble()) * 1e-3 * 50 / hertz,
                Noise = 0.02 * random.NextDouble() * Gravity.Standard,
                ImpactsPerSecond = kind.Impacts * random.NextDouble(),
                LumpNewtons = kind.Lumps * random.NextDouble(),
                Remanence = kind.Remanence * random.NextDouble(),
                DyingCycles = kind.Dying * (0.2 + random.NextDouble()),
                DyingAlternates = kind.Alternates,
                BuildUpCycles = kind.BuildUp * random.NextDouble(),
                OffSeconds = 0.61 + on,
                Seconds = 0.61 + on + Math.Max(1.2, 6 / (2 * Math.PI * hertz * damping)),
                Seed = random.Next(),
            };
            var (trueHz, trueDamping) = FreeModes.Highest(feeder.Parts());
            var taker = Measure(feeder);
            void Keep(List<(double, double, double, double)> list, DecayReading? reading, string name, string? reason)
            {
                if (reading is { } decay)
                {
                    list.Add((decay.NaturalFrequencyHz / trueHz - 1, decay.DampingRatio / trueDamping - 1, decay.FrequencyUncertaintyHz / trueHz, decay.DampingUncertainty / trueDamping));
                }

                if (verbose)
                {
                    Say($"  {name} {run} {hertz} Hz {feeder.RateHz} r {tuning:0.000} z {trueDamping:0.0000}: {(reading is { } r ? string.Create(CultureInfo.InvariantCulture, $"{100 * (r.NaturalFrequencyHz / trueHz - 1):0.000} % ± {100 * r.FrequencyUncertaintyHz / trueHz:0.000}; {100 * (r.DampingRatio / trueDamping - 1):0.0} % ± {100 * r.DampingUncertainty / trueDamping:0.0}") : reason)}");
                }
            }

            Keep(stops, taker.Stops.Count == 1 ? taker.Stops[0] : null, "stop", taker.Stops.Count == 1 ? null : $"{taker.Stops.Count} stops");
            Keep(starts, taker.Starts.Count == 1 ? taker.Starts[0].Decay : null, "start", taker.Starts.Count == 1 ? taker.Starts[0].Reason : $"{taker.Starts.Count} starts");
        }

        return (Of(runs, stops), Of(runs, starts));
    }

    /// <summary>Measures a feeder's run.</summary>
    public static Taker Measure(TransientFeeder feeder)
    {
        var settings = new MeterSettings { Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = feeder.RateHz, NominalHz = feeder.DriveHz, Contributions = StrokeContributions.None };
        var taker = new Taker();
        var meter = new StrokeMeter(settings);
        meter.Add(feeder.Run(), taker);
        meter.Finish(taker);
        return taker;
    }

    private static Result Of(int runs, List<(double Error, double Damping, double Spread, double DampingSpread)> found)
    {
        double Share(Func<(double Error, double Damping, double Spread, double DampingSpread), bool> holds) => found.Count(holds) / (double)Math.Max(1, found.Count);
        double At(IEnumerable<double> values, double share)
        {
            var sorted = values.Order().ToArray();
            return sorted.Length == 0 ? double.NaN : sorted[(int)(share * (sorted.Length - 1))];
        }

        return new(
            runs, found.Count, Share(f => Math.Abs(f.Error) < 0.002), Share(f => Math.Abs(f.Damping) < 0.08),
            Share(f => Math.Abs(f.Error) < f.Spread), Share(f => Math.Abs(f.Damping) < f.DampingSpread),
            At(found.Select(f => Math.Abs(f.Error)), 0.95), At(found.Select(f => Math.Abs(f.Damping)), 0.95),
            At(found.Select(f => f.Spread), 0.5), At(found.Select(f => f.DampingSpread), 0.5))
        {
            Scatter = Math.Sqrt(found.Select(f => Math.Pow(2 * f.Error / f.Spread, 2)).DefaultIfEmpty(double.NaN).Average()),
            DampingScatter = Math.Sqrt(found.Select(f => Math.Pow(2 * f.Damping / f.DampingSpread, 2)).DefaultIfEmpty(double.NaN).Average()),
        };
    }

    private static bool Say(string what, Kind kind, Result found)
    {
        Say($"{what} {kind.Name}: {found.Told} of {found.Runs} told; frequency 95 % within {100 * found.Error95:0.000} % ({100 * found.Near:0.0} % within 0.2 %, {100 * found.Covered:0.0} % covered, median U {100 * found.Spread:0.000} %, errors {found.Scatter:0.00} of the standard uncertainty); damping 95 % within {100 * found.DampingError95:0.0} % ({100 * found.DampingNear:0.0} % within 8 %, {100 * found.DampingCovered:0.0} % covered, median U {100 * found.DampingSpread:0.0} %, errors {found.DampingScatter:0.00})");
        return found.Error95 < 0.002 && found.DampingError95 < 0.08 && found.Covered > 0.93 && found.DampingCovered > 0.93;
    }

    private static void Say(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));

    internal sealed class Taker : IWindowSink
    {
        public List<DecayReading> Stops { get; } = [];

        public List<StartReading> Starts { get; } = [];

        public void Window(in WindowReading reading)
        {
        }

        public void Decay(in DecayReading reading) => Stops.Add(reading);

        public void Start(in StartReading reading) => Starts.Add(reading);
    }
}
