using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Takes the portrait of one window of a capture that was replayed before.</summary>
internal static class PortraitTaker
{
    private const int BlockSamples = 8192;

    /// <summary>How far the stroke of the second look may lie from that of the first, relative: more means that these are not the same samples.</summary>
    private const double SameStroke = 0.01;

    /// <summary>Chooses the window that speaks for the capture: of those that count, where a strike was found of those with strike, the one whose stroke is nearest the median.</summary>
    public static WindowReading? Choose(AssessmentReport report)
    {
        var counted = report.Windows
            .Where(window => window is { Verdict: not (Verdict.Stopped or Verdict.Unmeasurable), Reading: { StrokeMetres: not null, FrequencyHz: not null } })
            .Select(window => window.Reading).ToList();
        if (report.Strike.Found && counted.Exists(window => window.Strike))
        {
            counted.RemoveAll(window => !window.Strike);
        }

        if (counted.Count == 0)
        {
            return null;
        }

        return counted.OrderBy(window => window.StrokeMetres!.Value).ElementAt((counted.Count - 1) / 2);
    }

    /// <summary>Says which of several sensors a portrait is of, and its stroke in that window: the first on the tray that counts there; null where there is one sensor, or none counts.</summary>
    public static (int Index, double Stroke)? SensorOf(AssessmentReport report, in WindowReading window)
    {
        if (report.Sensors is not { } several)
        {
            return null;
        }

        foreach (var (start, strokes) in several.Windows)
        {
            for (var i = 0; start == window.StartSeconds && i < strokes.Count; i++)
            {
                if (SensorPlaces.IsOnTray(several.Sensors[i].Place) && strokes[i] is { } stroke)
                {
                    return (i, stroke);
                }
            }
        }

        return null;
    }

    /// <summary>Reads a freshly opened source up to a window and takes its portrait; null where the same samples are not found there again.</summary>
    /// <param name="source">The source, at its start.</param>
    /// <param name="result">What the first replay gave.</param>
    /// <param name="window">The window.</param>
    public static WindowPortrait? Take(ISampleSource source, ReplayResult result, in WindowReading window)
    {
        var settings = ChainSettings.For(result.Report.Feeder, source.Info, result.RateHz);
        var sensor = SensorOf(result.Report, window);
        var repair = new SampleRepair(result.Report.Feeder, settings, source.Info.NumberRail);
        if (source.Info.Axes.Count != result.Source.Axes.Count || (sensor is null && settings.Stations.Count > 0)
            || Samples(source, repair, result.RateHz, window) is not var (samples, times))
        {
            return null;
        }

        var frequency = window.FrequencyHz!.Value / (result.RateHz * (1 + (window.ClockError ?? 0)));
        if (sensor is { Index: var index })
        {
            var station = settings.Stations[index];
            (settings, samples) = (SensorChannels.Only(settings, station), samples[station.FirstChannel..(station.FirstChannel + station.Channels)]);
        }

        var portrait = WindowPortrait.Take(settings, samples, frequency, times);

        // The portrait shows what was sampled: what jitter took off and the meter gave back is not in it.
        var stroke = (sensor?.Stroke ?? window.StrokeMetres!.Value) / (1 + (result.Report.Jitter?.Correction ?? 0));
        return portrait is not null && Math.Abs(portrait.StrokeMetres / stroke - 1) < SameStroke ? portrait : null;
    }

    private static (double[][] Samples, double[] Times)? Samples(ISampleSource source, SampleRepair repair, double rate, in WindowReading window)
    {
        var count = (int)Math.Round(window.LengthSeconds * rate);
        var samples = source.Info.Axes.Select(_ => new double[count]).ToArray();
        var times = window.Timed ? new double[count] : [];
        var block = new SampleBlock(samples.Length, BlockSamples);
        var filled = 0;
        long passed = 0;
        for (var state = source.Read(block); state != SourceState.End && filled < count; state = source.Read(block))
        {
            if (state != SourceState.Samples)
            {
                continue;
            }

            // As in the replay: without a rate the source cannot place its blocks in time, samples counted do.
            var start = source.Info.RateHz is null ? passed / rate : block.StartSeconds;
            passed += block.Count;
            if (filled > 0 && (block.GapBefore || (window.Timed && !block.HasTimes)))
            {
                return null;
            }

            // As in the chain: a calibrated sensor's samples are corrected before they are measured.
            repair.Apply(block);
            var first = filled > 0 ? 0 : Math.Max(0, (int)Math.Min(int.MaxValue, Math.Round((window.StartSeconds - start) * rate)));
            var taken = Math.Min(count - filled, block.Count - first);
            for (var a = 0; a < samples.Length && taken > 0; a++)
            {
                block[a].Slice(first, taken).CopyTo(samples[a].AsSpan(filled));
            }

            if (window.Timed && block.HasTimes && taken > 0)
            {
                block.Times.Slice(first, taken).CopyTo(times.AsSpan(filled));
            }

            filled += Math.Max(0, taken);
        }

        return filled == count ? (samples, times) : null;
    }
}
