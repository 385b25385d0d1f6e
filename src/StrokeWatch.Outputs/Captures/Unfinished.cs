using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Samples.Wav;

namespace StrokeWatch.Outputs.Captures;

/// <summary>Finishes captures that a kill or a power cut left half written.</summary>
internal static class Unfinished
{
    /// <summary>Makes a whole capture of a half one; gives what it holds, nothing where it held no sample and was removed.</summary>
    /// <exception cref="IOException">The folder cannot be written.</exception>
    public static IReadOnlyList<AlarmWaveform> Finish(string partial)
    {
        var path = partial[..^OpenCapture.Partial.Length];
        var (alarms, gaps) = PartialNotes.Read(PartialNotes.Beside(partial));
        IReadOnlyList<AlarmWaveform> waveforms = [];
        if (alarms.Count > 0 && Copy(partial, path + ".whole", gaps) is var (from, length, missing))
        {
            File.Move(path + ".whole", path, overwrite: true);
            waveforms = [.. alarms.Select(alarm => new AlarmWaveform(alarm.Id, alarm.At, Path.GetFileName(path), from ?? alarm.At, length, missing, Whole: false))];
        }

        File.Delete(partial);
        File.Delete(PartialNotes.Beside(partial));
        return waveforms;
    }

    /// <summary>Writes its samples anew, with the gaps that only the notes hold; null where there are none, or nothing can be read.</summary>
    private static (DateTimeOffset? From, double Length, long Missing)? Copy(string partial, string path, Dictionary<long, long> gaps)
    {
        var (samples, missing) = (0L, 0L);
        try
        {
            using var source = CaptureFile.Open(partial);
            var info = source.Info;
            if (info.RateHz is not { } rate)
            {
                return null;
            }

            // One sample at a time: gaps may lie anywhere.
            var block = new SampleBlock(info.Axes.Count, 1);
            using (var writer = new WavCaptureWriter(new SyncedFile(path), info.Axes, rate, info.FullScale / Gravity.Standard, info.Places, info.Recorded, info.HasSupply))
            {
                while (source.Read(block) is var state && state != SourceState.End)
                {
                    if (state != SourceState.Samples)
                    {
                        continue;
                    }

                    (block.GapBefore, block.MissingBefore) = (gaps.TryGetValue(samples, out var gone), gone);
                    missing += gone;
                    writer.Write(block);
                    samples++;
                }
            }

            if (samples > 0)
            {
                return (info.Recorded, (samples + missing) / rate, missing);
            }
        }
        catch (CaptureException)
        {
            // Not even its head was written.
        }

        File.Delete(path);
        return null;
    }
}
