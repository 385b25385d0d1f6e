using System.Globalization;
using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Wav;

/// <summary>What a WAV header cannot hold and our own <c>swcp</c> chunks do: lines of <c>key=value</c> before the samples, and their gaps after them.</summary>
internal sealed class WavNotes
{
    /// <summary>Gets the exact rate in Hz.</summary>
    public double? RateHz { get; set; }

    /// <summary>Gets the unit of float samples.</summary>
    public AccelerationUnit? Unit { get; set; }

    /// <summary>Gets the axis of each channel.</summary>
    public IReadOnlyList<Axis>? Axes { get; set; }

    /// <summary>Gets the place of the sensor of each channel; null where there is one sensor.</summary>
    public IReadOnlyList<SensorPlace>? Places { get; set; }

    /// <summary>Gets the channel from 1 that holds the supply's voltage, after those of all axes; null where there is none.</summary>
    public int? Supply { get; set; }

    /// <summary>Gets the sensor's full scale in g.</summary>
    public double? FullScaleG { get; set; }

    /// <summary>Gets the gaps: the index of the first sample after each, and how many samples are missing.</summary>
    public List<(long Index, long Missing)> Gaps { get; } = [];

    /// <summary>Reads a chunk; lines that are not understood are left alone, for a later version may have written them.</summary>
    public void Read(Stream stream, int size)
    {
        var content = new byte[Math.Min(size, Math.Max(0, stream.Length - stream.Position))];
        stream.ReadAtLeast(content, content.Length, throwOnEndOfStream: false);
        foreach (var line in Encoding.UTF8.GetString(content).Split('\n'))
        {
            var equals = line.IndexOf('=', StringComparison.Ordinal);
            if (equals > 0)
            {
                Take(line[..equals].Trim(), line[(equals + 1)..].Trim());
            }
        }
    }

    /// <summary>Writes what stands before the samples.</summary>
    public byte[] Head()
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"rate_hz={RateHz:R}\n");
        text.Append(CultureInfo.InvariantCulture, $"unit={AccelerationUnits.Name(Unit ?? AccelerationUnit.G)}\n");
        text.Append(CultureInfo.InvariantCulture, $"axes={string.Join(',', Axes ?? []).ToLowerInvariant()}\n");
        if (Places is { Count: > 0 })
        {
            text.Append(CultureInfo.InvariantCulture, $"places={string.Join(',', Places.Select(SensorPlaces.Name))}\n");
        }

        if (Supply is { } channel)
        {
            text.Append(CultureInfo.InvariantCulture, $"supply_channel={channel}\n");
        }

        if (FullScaleG is { } fullScale)
        {
            text.Append(CultureInfo.InvariantCulture, $"full_scale_g={fullScale:R}\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    /// <summary>Writes what stands after the samples.</summary>
    public byte[] Tail()
    {
        var text = new StringBuilder();
        foreach (var (index, missing) in Gaps)
        {
            text.Append(CultureInfo.InvariantCulture, $"gap={index},{missing}\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static double? Positive(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) && value > 0 ? value : null;

    private void Take(string key, string value)
    {
        switch (key)
        {
            case "rate_hz":
                RateHz = Positive(value);
                break;
            case "full_scale_g":
                FullScaleG = Positive(value);
                break;
            case "supply_channel" when int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var channel) && channel > 0:
                Supply = channel;
                break;
            case "unit" when AccelerationUnits.TryParse(value, out var unit) && unit != AccelerationUnit.Counts:
                Unit = unit;
                break;
            case "axes":
                var axes = value.Split(',').Select(a => Enum.TryParse<Axis>(a, ignoreCase: true, out var axis) && a.Length == 1 && char.IsLetter(a[0]) ? axis : (Axis?)null).ToList();
                Axes = axes.Contains(null) ? null : axes.ConvertAll(a => a!.Value);
                break;
            case "places":
                var places = value.Split(',').Select(p => SensorPlaces.TryParse(p, out var place) ? place : (SensorPlace?)null).ToList();
                Places = places.Contains(null) ? null : places.ConvertAll(p => p!.Value);
                break;
            case "gap":
                var parts = value.Split(',');
                if (parts.Length == 2 && long.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var index)
                    && long.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var missing)
                    && index > (Gaps.Count > 0 ? Gaps[^1].Index : 0))
                {
                    Gaps.Add((index, missing));
                }

                break;
            default:
                break;
        }
    }
}
