using System.Globalization;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Benchmarks;

/// <summary>Seeded noise runs of one window each: spread, bias and coverage of the fundamental's stroke.</summary>
internal static class Efficiency
{
    private const double Noise = 0.3;
    private const double AngleDegrees = 23;

    /// <summary>What a study found: standard deviation over the Cramér-Rao bound, relative bias with its own deviation, and how often the k = 2 interval held the truth.</summary>
    internal sealed record Result(double OverBound, double Bias, double BiasDeviation, double Coverage, int Windows);

    /// <summary>Runs the whole study: 3 amplitudes, 4 rates, 4 frequencies; prints a table and gives 0 where every row meets its bounds.</summary>
    public static int Run(string[] arguments)
    {
        var runs = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 1000;
        double worst = 0, bias = 0, least = 1, most = 0;
        Console.WriteLine("  Hz   rate  stroke mm   sd/bound     bias %   coverage %");
        foreach (var hertz in (double[])[50, 60, 100, 120])
        {
            foreach (var rate in (double[])[1000, 1600, 3200, 6400])
            {
                foreach (var stroke in (double[])[0.1e-3, 0.5e-3, 1.5e-3])
                {
                    var found = Study(hertz, rate, stroke, runs, seed: (int)(hertz * 1000 + rate + stroke * 1e6));
                    Console.WriteLine(string.Create(
                        CultureInfo.InvariantCulture,
                        $"{hertz,4:0} {rate,6:0} {stroke * 1e3,10:0.0} {found.OverBound,10:0.000} {100 * found.Bias,10:0.0000} {100 * found.Coverage,10:0.0}"));
                    (worst, bias) = (Math.Max(worst, found.OverBound), Math.Max(bias, Math.Abs(found.Bias)));
                    (least, most) = (Math.Min(least, found.Coverage), Math.Max(most, found.Coverage));
                }
            }
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"worst sd/bound {worst:0.000}, worst bias {100 * bias:0.0000} %, coverage {100 * least:0.0} to {100 * most:0.0} %"));
        return worst <= 1.10 && bias < 2e-4 && least >= 0.93 && most <= 0.97 ? 0 : 1;
    }

    /// <summary>Studies one combination.</summary>
    public static Result Study(double hertz, double rate, double stroke, int runs, int seed)
    {
        var random = new Random(seed);
        var (sin, cos) = Math.SinCos(AngleDegrees * Math.PI / 180);
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMetres(stroke), hertz);
        var samples = (int)Math.Ceiling(0.5 * rate * 1.15) + 4;
        var block = new SampleBlock(3, samples) { RateHz = rate };
        var settings = new MeterSettings
        {
            Axes = [Axis.X, Axis.Y, Axis.Z],
            RateHz = rate,
            NominalHz = hertz,
            StillBelowMetres = 0.01e-3,
            FullScale = 1000,
            Contributions = StrokeContributions.None,
        };
        double sum = 0, squares = 0, bound = 0;
        int held = 0, count = 0;
        for (var run = 0; run < runs; run++)
        {
            var phase = 2 * Math.PI * random.NextDouble();
            for (var n = 0; n < samples; n++)
            {
                var along = amplitude * Math.Cos(2 * Math.PI * hertz * n / rate + phase);
                block.Fill(0)[n] = cos * along + Noise * Gauss(random);
                block.Fill(1)[n] = Noise * Gauss(random);
                block.Fill(2)[n] = sin * along + Gravity.Standard + Noise * Gauss(random);
            }

            block.SetCount(samples);
            var taker = new First();
            new StrokeMeter(settings).Add(block, taker);
            if (taker.Reading is not { FundamentalMetres: { } fundamental, UncertaintyMetres: { } uncertainty } reading)
            {
                continue;
            }

            var error = fundamental / stroke - 1;
            sum += error;
            squares += error * error;
            held += Math.Abs(fundamental - stroke) <= uncertainty ? 1 : 0;
            bound = Noise * Math.Sqrt(2 / (reading.LengthSeconds * rate)) / amplitude;
            count++;
        }

        var mean = sum / count;
        var deviation = Math.Sqrt((squares - count * mean * mean) / (count - 1));
        return new(deviation / bound, mean, deviation / Math.Sqrt(count), held / (double)count, count);
    }

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private sealed class First : IWindowSink
    {
        public WindowReading? Reading { get; private set; }

        public void Window(in WindowReading reading) => Reading ??= reading;

        public void Decay(in DecayReading reading)
        {
        }
    }
}
