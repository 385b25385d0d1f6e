using System.Globalization;
using System.Text;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Tests.Measurement;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>Writes a feeder of known stroke as a capture whose samples have times and stamps of their own, and replays it.</summary>
internal static class Stamped
{
    public const double Hertz = 50;
    public const double StrokeMetres = 1.7e-3;
    private const double Noise = 0.1;

    /// <summary>Replays samples taken at given times, each with its stamp in seconds.</summary>
    public static ReplayResult Replay(IEnumerable<(double Taken, double Stamp)> samples, int seed, Func<double, double>? cycles = null, bool free = false, string timeFormat = "R")
    {
        var random = new Random(seed);
        var text = new StringBuilder("t_s,x_m_s2,z_m_s2");
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMetres(StrokeMetres), Hertz);
        var (sin, cos) = Math.SinCos(25 * Math.PI / 180);
        foreach (var (taken, stamp) in samples)
        {
            var phase = 2 * Math.PI * (cycles?.Invoke(taken) ?? Hertz * taken) + 0.3;
            var along = amplitude * Math.Cos(phase);
            text.Append(CultureInfo.InvariantCulture, $"\n{stamp.ToString(timeFormat, CultureInfo.InvariantCulture)},{cos * along + Noise * Signal.Gauss(random):R},{sin * along + Gravity.Standard + Noise * Signal.Gauss(random):R}");
        }

        var bytes = Encoding.UTF8.GetBytes(text.Append('\n').ToString());
        using var source = CaptureFile.Open(new CaptureBytes("cullet.csv", () => new MemoryStream(bytes, writable: false)), new());
        var feeder = new FeederDescription
        {
            Name = "Cullet feeder",
            Drive = new(Hertz, 1, free),
            Band = new(Length.FromMillimetres(1.6), Length.FromMillimetres(1.8), Length.FromMillimetres(1.9)),
        };
        return Replayer.Run("cullet.csv", source, feeder, new AlarmDelays());
    }
}
