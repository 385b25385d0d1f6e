using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Csv;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Wav;

namespace StrokeWatch.Benchmarks;

/// <summary>A sand feeder's tray at 4 kHz on three axes, seeded: a fundamental of 1.5 mm, a second harmonic, gravity, noise. It repeats after 20 s, which are 1003 whole cycles.</summary>
internal static class TraySignal
{
    public const double RateHz = 4000;

    /// <summary>The feeder it is made for, as its file.</summary>
    public const string FeederToml =
        "name = \"Sand feeder\"\n[drive]\nsupply_hz = 50\nstrokes_per_cycle = 1\n[stroke]\nlow = \"1.4 mm\"\nhigh = \"1.6 mm\"\nlimit = \"1.7 mm\"\n";

    private const int Seconds = 20;

    /// <summary>The mains' 50 Hz as a sensor sees them whose clock is 0.3 % slow.</summary>
    private const double DriveHz = 50.15;

    public static IReadOnlyList<Axis> Axes { get; } = [Axis.X, Axis.Y, Axis.Z];

    /// <summary>Makes its 20 blocks of one second.</summary>
    public static SampleBlock[] Blocks()
    {
        var random = new Random(3);
        double Noise() => 0.2 * (random.NextDouble() + random.NextDouble() + random.NextDouble() - 1.5);
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMillimetres(1.5), 50);
        var blocks = new SampleBlock[Seconds];
        for (var second = 0; second < Seconds; second++)
        {
            var block = blocks[second] = new SampleBlock(3, (int)RateHz) { RateHz = RateHz, StartSeconds = second };
            for (var n = 0; n < block.Capacity; n++)
            {
                var turn = 2 * Math.PI * DriveHz * (second + n / RateHz);
                var along = amplitude * (Math.Cos(turn) + 0.08 * Math.Cos(2 * turn + 0.3));
                block.Fill(0)[n] = 0.9 * along + Noise();
                block.Fill(1)[n] = Noise();
                block.Fill(2)[n] = 0.43 * along + Gravity.Standard + Noise();
            }

            block.SetCount(block.Capacity);
        }

        return blocks;
    }

    /// <summary>Writes a capture, WAV or CSV by its name.</summary>
    public static void Write(string path, double minutes)
    {
        using ICaptureWriter writer = path.EndsWith(".wav", StringComparison.Ordinal)
            ? new WavCaptureWriter(path, Axes, RateHz)
            : new CsvCaptureWriter(path, Axes, RateHz);
        var blocks = Blocks();
        for (var second = 0; second < Math.Round(60 * minutes); second++)
        {
            var block = blocks[second % Seconds];
            block.StartSeconds = second;
            writer.Write(block);
        }
    }
}
