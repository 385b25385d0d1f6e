using System.Globalization;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Tests.Measurement;
using StrokeWatch.Tests.Measurement.Calibration;

namespace StrokeWatch.Tests.Commands;

/// <summary>A sensor with known faults, m = K·a + b in g, as files show it: six positions at rest, and a feeder of known stroke.</summary>
internal static class GlassWorksSensor
{
    public const double Rate = 3200;

    /// <summary>Writes the six positions and gives the option's text.</summary>
    public static string Tumble(string folder, double noiseG = 0.002, double hummingG = 0)
    {
        var random = new Random(17);
        string[] names = ["x+", "x-", "y+", "y-", "z+", "z-"];
        var parts = new List<string>();
        for (var p = 0; p < 6; p++)
        {
            var mean = TumbleTests.Positions[p];
            var path = Path.Combine(folder, $"{"xyz"[p / 2]}{(p % 2 == 0 ? "up" : "down")}.csv");
            var hum = p == 5 ? hummingG : 0;
            Write(path, 3200, t => [.. mean.Select(value => value + noiseG * Signal.Gauss(random) + hum * Math.Sin(2 * Math.PI * 50 * t))]);
            parts.Add($"{names[p]}={path}");
        }

        return string.Join(',', parts);
    }

    /// <summary>Writes a 50 Hz feeder of a stroke along 25° in the x-z plane, as the faulty sensor reads it.</summary>
    public static void Feeder(string path, double strokeMetres)
    {
        var truth = Signal.Feeder(strokeMetres, 50, 25, 0.02 * Gravity.Standard, seed: 23);
        var (k, b) = (TumbleTests.Gain, TumbleTests.Bias);
        Write(path, 4 * Rate, t =>
        {
            var a = truth(t);
            return [.. Enumerable.Range(0, 3).Select(i => (k[3 * i] * a[0] + k[3 * i + 1] * a[1] + k[3 * i + 2] * a[2]) / Gravity.Standard + b[i])];
        });
    }

    /// <summary>Gives a feeder file's text.</summary>
    public static string FeederFile(string sensor) => $"""
        name = "Cullet feeder"
        [drive]
        supply_hz = 50
        strokes_per_cycle = 1
        [stroke]
        low = "1.65 mm"
        high = "1.78 mm"
        limit = "1.90 mm"
        [sensor]
        full_scale_g = 32
        {sensor}
        """;

    private static void Write(string path, double samples, Func<double, double[]> reading)
    {
        using var writer = new StreamWriter(path);
        writer.WriteLine("t_s,x_g,y_g,z_g");
        for (var n = 0; n < samples; n++)
        {
            var values = reading(n / Rate);
            writer.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{n / Rate:0.0000000},{values[0]:0.000000},{values[1]:0.000000},{values[2]:0.000000}"));
        }
    }
}
