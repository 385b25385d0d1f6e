using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Findings;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Runs a capture through the measurement chain, as fast as the machine allows.</summary>
internal static class Replayer
{
    private const int BlockSamples = 8192;

    /// <summary>Replays an open source to its end.</summary>
    /// <param name="file">The capture's name as the user gave it.</param>
    /// <param name="source">The source.</param>
    /// <param name="feeder">The feeder.</param>
    /// <param name="delays">The alarms' delays.</param>
    /// <exception cref="CaptureException">The capture cannot be read, or nothing tells its rate, or it holds no usable sample.</exception>
    public static ReplayResult Run(string file, ISampleSource source, FeederDescription feeder, AlarmDelays delays)
    {
        var builder = new ReportBuilder(feeder);
        var block = new SampleBlock(source.Info.Axes.Count, BlockSamples);
        var guesses = source.Info.Guesses.ToList();
        using var ear = SecondEar.Make();
        var chain = new MeasurementChain(feeder, delays, new Recorder(builder), ear: ear);
        SampleBlock? first = null;
        var rate = source.Info.RateHz ?? 0;
        var settings = ChainSettings.For(feeder, source.Info, Math.Max(rate, 1));
        double begin = 0, end = 0, offset = 0;
        for (var state = source.Read(block); state != SourceState.End; state = source.Read(block))
        {
            if (state != SourceState.Samples)
            {
                continue;
            }

            if (first is null)
            {
                first = Copy(block);
                if (rate <= 0)
                {
                    (rate, var guess) = RateFinder.Find(file, block, feeder);
                    guesses.Add(guess);
                }

                settings = ChainSettings.For(feeder, source.Info, rate);
                chain.Begin(settings, source.Info.NumberRail);
                begin = block.StartSeconds;
            }

            if (source.Info.RateHz is null)
            {
                // Without a rate the source cannot place its blocks in time: samples counted do.
                block.StartSeconds = offset / rate;
                offset += block.Count;
            }

            chain.Take(block);
            end = block.StartSeconds + block.Count / rate;
        }

        if (first is null)
        {
            var reasons = string.Join(", ", source.Counters.Rejected.Select(reason => $"{reason.Value} {reason.Key}"));
            throw new CaptureException($"{file}: holds no usable sample{(reasons.Length > 0 ? $" (rows rejected: {reasons})" : "")}; record it again");
        }

        chain.Finish();
        var report = DriveElsewhere.Tell(builder.Build(settings.Contributions.Hiding(chain.HiddenCut), settings.Stations, chain.Orientation, settings.Axes.Count, chain.Jitter, chain.Orientations), first, rate);
        return new()
        {
            File = file,
            Source = source.Info,
            Counters = source.Counters,
            RateHz = rate,
            DurationSeconds = end - begin,
            Guesses = guesses,
            Report = report,
            Features = CaptureFeatures.Of(report, source.Counters.Samples, source.Counters.MissingSamples),
            Date = CaptureDate.Of(file, source.Info),
            Findings = Rules.Look(report),
            Contributions = settings.Contributions,
        };
    }

    private static SampleBlock Copy(SampleBlock block)
    {
        var copy = new SampleBlock(block.Channels, block.Capacity);
        for (var channel = 0; channel < block.Channels; channel++)
        {
            block[channel].CopyTo(copy.Fill(channel));
        }

        copy.SetCount(block.Count);
        return copy;
    }
}
