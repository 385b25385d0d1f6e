using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Tests.Measurement;

/// <summary>Seeded signals whose stroke is known in closed form.</summary>
internal sealed class Signal : IWindowSink
{
    public List<WindowReading> Windows { get; } = [];

    public List<DecayReading> Decays { get; } = [];

    public List<StartReading> Starts { get; } = [];

    public void Window(in WindowReading reading) => Windows.Add(reading);

    public void Decay(in DecayReading reading) => Decays.Add(reading);

    public void Start(in StartReading reading) => Starts.Add(reading);

    /// <summary>Gives acceleration of a fundamental stroke along a line in the x-z plane, with gravity on z and Gaussian noise.</summary>
    public static Func<double, double[]> Feeder(double strokeMetres, double hertz, double angleDegrees, double noise, int seed, params (int Order, double Share)[] harmonics)
    {
        var random = new Random(seed);
        var (sin, cos) = Math.SinCos(angleDegrees * Math.PI / 180);
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMetres(strokeMetres), hertz);
        return t =>
        {
            var along = amplitude * Math.Cos(2 * Math.PI * hertz * t + 0.7);
            foreach (var (order, share) in harmonics)
            {
                along += amplitude * share * Math.Cos(2 * Math.PI * hertz * order * t + 1.3 * order);
            }

            return [cos * along + noise * Gauss(random), noise * Gauss(random), sin * along + Gravity.Standard + noise * Gauss(random)];
        };
    }

    public static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    /// <summary>Cuts a signal into blocks; the sensor states <paramref name="rate"/> while its clock truly runs at rate·(1 + error).</summary>
    public static IEnumerable<SampleBlock> Blocks(Func<double, double[]> signal, double rate, double seconds, double clockError = 0, int size = 500)
    {
        var total = (int)Math.Round(seconds * rate);
        for (var first = 0; first < total; first += size)
        {
            var count = Math.Min(size, total - first);
            var block = new SampleBlock(3, count) { RateHz = rate, StartSeconds = first / rate };
            for (var n = 0; n < count; n++)
            {
                var values = signal((first + n) / (rate * (1 + clockError)));
                for (var a = 0; a < 3; a++)
                {
                    block.Fill(a)[n] = values[a];
                }
            }

            block.SetCount(count);
            yield return block;
        }
    }
}
