using System.Diagnostics;
using System.Globalization;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Quality;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Benchmarks;

/// <summary>Seeded windows, healthy and cut: how often clipping is called, and whether the bound of a cut stroke holds.</summary>
internal static class Clipping
{
    /// <summary>What is made: highest order with a random share, the largest share of orders 2 and 3 and of those above, in the fundamental's acceleration.</summary>
    internal sealed record Wave(string Name, int Orders, double Low, double High);

    /// <summary>How a wave is cut: level as a share of its peak (1 leaves it whole), one side or both, and the noise put on after the limiter; null for a random 0 to 5 %.</summary>
    internal sealed record Cut(double Level, bool OneSided, double? Noise = null, int? Bits = null, bool Known = false, double RailError = 0);

    /// <summary>What a study found: windows called clipped, those left undecided because the range is unknown, those with a bound, bounds above the truth, bounds no lower than that of the cut fundamental; the mean bound and mean plain bound over the truth; the worst stroke error among those that count; and the largest bound over the truth.</summary>
    internal sealed record Result(int Windows, int Called, int Undecided, int Bounded, int Broken, int PlainBroken, int Better, double MeanBound, double MeanPlain, double WorstMissed, double MostBound, int Counting, int Outside, double MeanHidden);

    private static readonly double[] Rates = [1600, 3200, 4000, 6400];
    private static readonly double[] Hertz = [50, 60, 100, 120];

    public static Wave Sine { get; } = new("sine", 1, 0, 0);

    public static Wave Third { get; } = new("2nd and 3rd to 30 %", 3, 0.3, 0);

    public static Wave Eighth { get; } = new("and to 8th, 4 %", 8, 0.3, 0.04);

    public static Wave SlightEighth { get; } = new("and to 8th, 1.5 %", 8, 0.3, 0.015);

    public static Wave Twelfth { get; } = new("and to 12th, 4 %", 12, 0.3, 0.04);

    public static Wave Fifth { get; } = new("and to 5th, 40 %", 5, 0.3, 0.4);

    /// <summary>Prints false alarms over many healthy windows, then calls and bounds over cut ones; with how many windows, and how many kinds of wave are left out at the beginning.</summary>
    public static int Run(string[] arguments)
    {
        var runs = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 10_000;
        var sound = true;
        foreach (var wave in ((Wave[])[Sine, Third, Fifth, SlightEighth, Eighth, Twelfth]).Skip(arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 0))
        {
            var healthy = Study(wave, new(1, false), runs, 1);
            Say($"whole, {wave.Name}: {healthy.Called} of {healthy.Windows} called, {healthy.Undecided} left undecided; of {healthy.Counting} that count {healthy.Outside} outside their uncertainty, hidden {100 * healthy.MeanHidden:0.00} %");
            sound &= healthy.Called == 0 || wave.Orders > 3;
            foreach (var level in (double[])[0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.97])
            {
                foreach (var oneSided in (bool[])[false, true])
                {
                    var cut = Study(wave, new(level, oneSided), runs / 20, 2);
                    Say($"cut at {level:0.00}, {(oneSided ? "one side " : "both sides")}, {wave.Name}: {100.0 * cut.Called / cut.Windows:0.0} % called, {100.0 * cut.Undecided / cut.Windows:0.0} % left undecided, bound {100 * cut.MeanBound:0.0} % (cut fundamental {100 * cut.MeanPlain:0.0} %) of the truth, at most {100 * cut.MostBound:0.0} %, above it {cut.Broken} ({cut.PlainBroken}), no lower than before {cut.Better} of {cut.Bounded}; worst error among those that count {100 * cut.WorstMissed:0.0} %, {cut.Outside} of {cut.Counting} outside their uncertainty, hidden {100 * cut.MeanHidden:0.00} %");
                    sound &= cut.Broken == 0 || wave.Orders > 3;
                }
            }
        }

        Cost();
        return sound ? 0 : 1;
    }

    /// <summary>Studies one combination.</summary>
    public static Result Study(Wave wave, Cut cut, int runs, int seed)
    {
        var random = new Random(seed);
        int called = 0, undecided = 0, bounded = 0, broken = 0, plainBroken = 0, better = 0;
        var (counting, outside) = (0, 0);
        double hidden = 0;
        double sum = 0, plainSum = 0, worst = 0, most = 0;
        for (var run = 0; run < runs; run++)
        {
            var hertz = Hertz[random.Next(Hertz.Length)];
            var rate = Rates[random.Next(Rates.Length)];
            var clock = random.Next(2) * (random.NextDouble() - 0.5) * 0.02;
            var (values, truth, rail) = Make(wave, cut, hertz / rate / (1 + clock), (int)(0.57 * rate), random);
            var settings = new MeterSettings
            {
                Axes = [Axis.Z],
                RateHz = rate,
                NominalHz = hertz,
                StillBelowMetres = 1e-9,
                FullScale = cut.Known ? rail / (1 + cut.RailError) : null,
                Contributions = StrokeContributions.None,
            };
            var taker = new Taker();
            var block = new SampleBlock(1, values.Length) { RateHz = rate };
            values.CopyTo(block.Fill(0));
            block.SetCount(values.Length);
            new StrokeMeter(settings).Add(block, taker);
            var reading = taker.Reading!.Value;
            var omega = 2 * Math.PI * hertz;
            var stroke = truth / (omega * omega);
            if (reading.ClippedSamples == 0)
            {
                undecided += reading.StrokeMetres is null && reading.AtLeastMetres is not null ? 1 : 0;
                worst = Math.Max(worst, Math.Abs((reading.StrokeMetres ?? stroke) / stroke - 1));
                if (reading.StrokeMetres is { } read)
                {
                    (counting, hidden) = (counting + 1, hidden + reading.HiddenCut);
                    outside += Math.Abs(read - stroke) > reading.UncertaintyMetres ? 1 : 0;
                }

                continue;
            }

            called++;
            if (reading.AtLeastMetres is { } bound)
            {
                var count = (int)Math.Round(reading.LengthSeconds * rate);
                var plain = Plain(values, count, hertz / rate / (1 + clock), hertz);
                bounded++;
                most = Math.Max(most, bound / stroke);
                broken += bound > stroke ? 1 : 0;
                plainBroken += plain > stroke ? 1 : 0;
                better += bound >= plain - 1e-12 ? 1 : 0;
                (sum, plainSum) = (sum + bound / stroke, plainSum + plain / stroke);
            }
        }

        return new(runs, called, undecided, bounded, broken, plainBroken, better, sum / Math.Max(1, bounded), plainSum / Math.Max(1, bounded), worst, most, counting, outside, hidden / Math.Max(1, counting));
    }

    /// <summary>Makes a window: samples in m/s², the displacement's true extent times ω², and the rail.</summary>
    internal static (double[] Values, double Truth, double Rail) Make(Wave wave, Cut cut, double cyclesPerSample, int count, Random random)
    {
        const double Amplitude = 100;
        var orders = new (int Order, double Share, double Phase)[wave.Orders];
        for (var k = 1; k <= wave.Orders; k++)
        {
            orders[k - 1] = (k, k == 1 ? 1 : random.NextDouble() * (k <= 3 ? wave.Low : wave.High), 2 * Math.PI * random.NextDouble());
        }

        double At(double cycles, int weight)
        {
            var sum = 0.0;
            foreach (var (order, share, phase) in orders)
            {
                sum += share / (weight == 0 ? 1 : order * order) * Math.Cos(2 * Math.PI * order * cycles + phase);
            }

            return Amplitude * sum;
        }

        var shape = Enumerable.Range(0, 720).Select(i => At(i / 720.0, 0)).ToArray();
        var moved = Enumerable.Range(0, 720).Select(i => At(i / 720.0, 1)).ToArray();
        var (bottom, top) = (shape.Min(), shape.Max());
        var rail = cut.Level >= 1 ? double.PositiveInfinity : cut.Level * (cut.OneSided ? top : Math.Max(top, -bottom));
        var noise = Amplitude * (cut.Noise ?? 0.05 * random.NextDouble());
        var bits = cut.Bits ?? random.Next(8, 17);
        var step = 2 * Amplitude * (1.5 + 1.5 * random.NextDouble()) / (1L << bits);
        var values = new double[count];
        for (var n = 0; n < count; n++)
        {
            var value = Math.Min(At(cyclesPerSample * n, 0), rail);
            value = cut.OneSided ? value : Math.Max(value, -rail);
            values[n] = step * Math.Round((value + noise * Gauss(random)) / step);
        }

        return (values, moved.Max() - moved.Min(), rail);
    }

    /// <summary>Times what the check adds to a whole window that is not clipped.</summary>
    private static void Cost()
    {
        const int Count = 2000, Rounds = 200_000;
        foreach (var wave in (Wave[])[Sine, Third, Eighth])
        {
            var random = new Random(5);
            var values = Make(wave, new(1, false, 0.01, 16), 0.0125, Count, random).Values;
            double[][] axes = [values, values, values];
            var fit = new HarmonicFit(3, 36);
            fit.Fit(axes, 0, Count, 0.0125, 36, follow: true);
            var (bottom, top) = Lanes.Extremes(values);
            var rail = new BlurredRail();
            var found = 0;
            for (var warm = 0; warm < Rounds; warm++)
            {
                found += rail.Count(values, bottom, top, fit, 0, null);
            }

            var watch = Stopwatch.StartNew();
            for (var round = 0; round < Rounds; round++)
            {
                found += rail.Count(values, bottom, top, fit, 0, null);
            }

            Say($"{wave.Name}: {watch.Elapsed.TotalMicroseconds / Rounds:0.000} µs an axis and window of {Count} samples ({found} found)");
        }
    }

    /// <summary>Gives the bound that the cut waveform's own fundamental makes.</summary>
    private static double Plain(double[] values, int count, double frequency, double hertz)
    {
        var orders = Math.Clamp((int)(0.45 / frequency), 1, 40);
        var fit = new HarmonicFit(1, orders);
        fit.Fit([values], 0, count, frequency, orders, follow: true);
        var omega = 2 * Math.PI * hertz;
        var fundamental = 2 * Math.Sqrt(fit.Cosine(0)[1] * fit.Cosine(0)[1] + fit.Sine(0)[1] * fit.Sine(0)[1]);
        return (fundamental - 4 * fit.ResidualDeviation * Math.Sqrt(2.0 / count)) / (omega * omega);
    }

    private static void Say(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private sealed class Taker : Measurement.Windows.IWindowSink
    {
        public Measurement.Windows.WindowReading? Reading { get; private set; }

        public void Window(in Measurement.Windows.WindowReading reading) => Reading ??= reading;

        public void Decay(in Measurement.CoastDown.DecayReading reading)
        {
        }
    }
}
