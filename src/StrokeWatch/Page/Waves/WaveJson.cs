using System.Text.Json;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Page.Waves;

/// <summary>Writes what a look at the last second shows; what the look lacks is null, for the reason given beside it.</summary>
internal static class WaveJson
{
    private const int PathPoints = 180;

    /// <summary>Orders up to this one are looked at in between as well: a contact in every second cycle shows at halves.</summary>
    private const int MostHalves = 10;

    /// <summary>Writes the samples of each axis, the last so many seconds, in at most so many columns.</summary>
    public static void Waveform(Utf8JsonWriter writer, WaveLook look, double seconds, int points)
    {
        var count = look.RateHz is { } rate ? Math.Min(look.Samples[0].Length, (int)Math.Round(seconds * rate)) : 0;
        var each = Math.Max(1, (count + points - 1) / points);
        PageJson.Number(writer, "rate_hz", look.RateHz, 3);
        PageJson.Number(writer, "length_s", count / look.RateHz, 6);
        PageJson.Number(writer, "column_s", each / look.RateHz, 9);
        writer.WriteNumber("samples_per_column", each);
        writer.WriteStartArray("axes");
        for (var axis = 0; axis < look.Samples.Count; axis++)
        {
            var samples = look.Samples[axis].AsSpan()[^count..];
            writer.WriteStartObject();
            writer.WriteString("axis", Name(look.Axes[axis]));
            Extremes(writer, "least_m_s2", samples, each, most: false);
            Extremes(writer, "most_m_s2", samples, each, most: true);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    /// <summary>Writes the displacement over one cycle, all orders and the fundamental alone.</summary>
    public static void Path(Utf8JsonWriter writer, WaveLook look)
    {
        var portrait = look.Portrait;
        PageJson.Length(writer, "stroke", portrait?.StrokeMetres);
        PageJson.Number(writer, "frequency_hz", portrait?.DriveHz, 4);
        writer.WriteStartArray("axes");
        for (var channel = 0; portrait is not null && channel < look.Axes.Count; channel++)
        {
            writer.WriteStartObject();
            writer.WriteString("axis", Name(look.Axes[channel]));
            PageJson.Number(writer, "direction", portrait.Direction[channel], 5);
            Cycle(writer, "displacement_mm", cycles => portrait.DisplacementAt(channel, cycles));
            Cycle(writer, "fundamental_mm", cycles => portrait.DisplacementAt(channel, cycles, 1));
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    /// <summary>Writes the amplitude of each order along the line of action.</summary>
    public static void Orders(Utf8JsonWriter writer, WaveLook look)
    {
        var portrait = look.Portrait;
        PageJson.Number(writer, "frequency_hz", portrait?.DriveHz, 4);
        PageJson.Number(writer, "noise_m_s2", portrait?.NoiseDeviation, 6);
        writer.WriteStartArray("orders");
        for (var half = 1; portrait is not null && half <= 2 * portrait.Orders; half++)
        {
            var order = half / 2.0;
            if (half % 2 == 1 && order > MostHalves)
            {
                continue;
            }

            var amplitude = half % 2 == 0 ? portrait.Amplitude(half / 2) : portrait.AmplitudeBetween(order);
            var omega = 2 * Math.PI * order * portrait.DriveHz;
            writer.WriteStartObject();
            writer.WriteNumber("order", order);
            PageJson.Number(writer, "frequency_hz", order * portrait.DriveHz, 3);
            PageJson.Number(writer, "amplitude_m_s2", amplitude, 5);
            PageJson.Length(writer, "pp", 2 * amplitude / (omega * omega));
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    private static string Name(Axis axis) => axis.ToString().ToLowerInvariant();

    private static void Cycle(Utf8JsonWriter writer, string name, Func<double, double> metres)
    {
        writer.WriteStartArray(name);
        for (var point = 0; point < PathPoints; point++)
        {
            writer.WriteNumberValue(Math.Round(1e3 * metres((double)point / PathPoints), 5));
        }

        writer.WriteEndArray();
    }

    private static void Extremes(Utf8JsonWriter writer, string name, ReadOnlySpan<double> samples, int each, bool most)
    {
        writer.WriteStartArray(name);
        for (var from = 0; from < samples.Length; from += each)
        {
            var extreme = samples[from];
            foreach (var sample in samples.Slice(from, Math.Min(each, samples.Length - from)))
            {
                extreme = most ? Math.Max(extreme, sample) : Math.Min(extreme, sample);
            }

            writer.WriteNumberValue(Math.Round(extreme, 3));
        }

        writer.WriteEndArray();
    }
}
