using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>What a decoder of a sensor's bytes must hold: every byte is taken in the end, and no run holds more than it may or anything but numbers.</summary>
internal static class DecoderTarget
{
    public static bool Take(ISampleDecoder decoder, int channels, byte[] input, Random random)
    {
        var run = new SampleRun();
        var any = false;
        for (var at = 0; at < input.Length;)
        {
            var piece = Math.Min(1 + random.Next(random.Next(2) == 0 ? 40 : ISampleDecoder.FeedSize), input.Length - at);
            if (decoder.Feed(input.AsSpan(at, piece)) != piece)
            {
                throw new InvalidOperationException("bytes were left although all before were taken out");
            }

            at += piece;
            any |= Drain(decoder, run, channels);
        }

        decoder.Break();
        return Drain(decoder, run, channels) || any;
    }

    private static bool Drain(ISampleDecoder decoder, SampleRun run, int channels)
    {
        var any = false;
        for (var turns = 0; decoder.Next(run) is var state && state != DecodeState.None; turns++)
        {
            if (turns > 2 * ISampleDecoder.FeedSize)
            {
                throw new InvalidOperationException("more came out than can have gone in");
            }

            if (state == DecodeState.Announcement)
            {
                continue;
            }

            any = true;
            if (run.Count is < 1 or > SampleRun.Capacity || run.MissingBefore < 0)
            {
                throw new InvalidOperationException($"a run of {run.Count} samples, {run.MissingBefore} missing before it");
            }

            for (var channel = 0; channel < (run.Sensor is { } sensor ? sensor.Sensors * sensor.Axes.Count : channels); channel++)
            {
                if (run[channel][..run.Count].ContainsAnyExceptInRange(double.MinValue, double.MaxValue))
                {
                    throw new InvalidOperationException("a sample is no number");
                }
            }
        }

        return any;
    }
}
