using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Csv;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Wav;

namespace StrokeWatch.Commands;

/// <summary>Chooses a capture's format by its file's extension.</summary>
internal static class CaptureWriters
{
    /// <summary>Says what is wrong with a capture's name, in one line; null where nothing is.</summary>
    public static string? Trouble(string path) => Path.GetExtension(path).ToLowerInvariant() is ".csv" or ".wav"
        ? null
        : $"{path}: a capture's name ends in .csv or .wav; name it so";

    /// <summary>Makes the file and its writer.</summary>
    public static ICaptureWriter Create(string path, IReadOnlyList<Axis> axes, double rateHz, double? fullScale, IReadOnlyList<SensorPlace>? places = null,
        DateTimeOffset? recorded = null, bool supply = false) =>
        Path.GetExtension(path).Equals(".wav", StringComparison.OrdinalIgnoreCase)
            ? new WavCaptureWriter(path, axes, rateHz, fullScale / Gravity.Standard, places, recorded, supply)
            : new CsvCaptureWriter(path, axes, rateHz, places, recorded, supply);
}
