using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Samples.Wav;

/// <summary>A WAV file as a source of samples.</summary>
internal sealed class WavCaptureSource : ICaptureSource
{
    private const int BufferBytes = 1 << 18;

    private readonly CaptureBytes bytes;
    private readonly Stream stream;
    private readonly WavLayout layout;
    private readonly int[] channels;
    private readonly int supply;
    private readonly double scale;
    private readonly byte[] buffer;
    private int bufferAt;
    private int bufferEnd;
    private long framesRead;
    private long missing;
    private long rejectedBefore;
    private int nextGap;
    private bool delivered;
    private bool lossPending;
    private long loss;

    private WavCaptureSource(CaptureBytes bytes, Stream stream, WavLayout layout, int[] channels, int supply, double scale, SourceInfo info)
    {
        this.bytes = bytes;
        this.stream = stream;
        this.layout = layout;
        this.channels = channels;
        this.supply = supply;
        this.scale = scale;
        Info = info;
        Summary = new CaptureSummary { Samples = layout.Frames, HeaderRateHz = layout.HeaderRate > 0 ? layout.HeaderRate : null, Repeatable = bytes.Repeatable };
        buffer = new byte[Math.Max(1, BufferBytes / layout.FrameBytes) * layout.FrameBytes];
        stream.Position = layout.DataStart;
        if (layout.IsTruncated)
        {
            Counters.Reject(RejectReasons.Truncated);
        }
    }

    /// <inheritdoc/>
    public SourceInfo Info { get; }

    /// <inheritdoc/>
    public SourceCounters Counters { get; } = new();

    /// <inheritdoc/>
    public CaptureSummary Summary { get; }

    /// <summary>Opens a WAV file.</summary>
    public static WavCaptureSource Open(CaptureBytes bytes, CaptureOptions options)
    {
        var stream = bytes.Open();
        try
        {
            var layout = WavLayout.Read(bytes, stream);
            if (layout.Frames == 0)
            {
                throw bytes.Error("holds no samples; record it again");
            }

            var guesses = new List<string>();
            var (channels, axes, places) = WavChannels.Choose(bytes, layout, options, guesses);
            var supply = WavChannels.Supply(bytes, layout, options);
            var (unit, scale) = Scale(bytes, layout, options, guesses);
            var rate = options.RateHz ?? layout.Notes.RateHz ?? (layout.HeaderRate > 0 ? layout.HeaderRate : null);
            var info = new SourceInfo
            {
                Format = "wav",
                Axes = axes,
                Places = places,
                RateHz = rate,
                RateFrom = options.RateHz.HasValue ? RateOrigin.Option : rate.HasValue ? RateOrigin.Header : RateOrigin.Supply,
                Unit = unit,
                FullScale = (options.FullScaleG ?? layout.Notes.FullScaleG) * Gravity.Standard,
                NumberRail = WavSamples.IsInteger(layout.Encoding) ? (WavSamples.Span(layout.Encoding) - 1) * scale : null,
                Recorded = layout.Recorded,
                HasSupply = supply >= 0,
                SupplyRail = WavSamples.IsInteger(layout.Encoding) ? 1 - (1 / WavSamples.Span(layout.Encoding)) : null,
                Guesses = guesses,
            };
            return new(bytes, stream, layout, channels, supply, scale, info);
        }
        catch
        {
            stream.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public SourceState Read(SampleBlock block)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(block.Channels, channels.Length, nameof(block));
        block.Clear();
        (block.RateHz, block.FullScale) = (Info.RateHz, Info.FullScale);
        var count = 0;
        try
        {
            while (count < block.Capacity && Fill() && !(CollectLoss() && count > 0))
            {
                var taken = Take(block, count);
                if (taken > 0 && lossPending)
                {
                    ReportLoss(block);
                }

                count += taken;
            }
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw bytes.Error(fault);
        }

        block.SetCount(count);
        Counters.Samples += count;
        return count > 0 ? SourceState.Samples : SourceState.End;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        stream.Dispose();
        bytes.Dispose();
    }

    private static (AccelerationUnit Unit, double Scale) Scale(CaptureBytes bytes, WavLayout layout, CaptureOptions options, List<string> guesses)
    {
        if (WavSamples.IsInteger(layout.Encoding))
        {
            return options.CountsPerG is { } counts ? (AccelerationUnit.Counts, Gravity.Standard / counts)
                : (options.FullScaleG ?? layout.Notes.FullScaleG) is { } fullScale ? (AccelerationUnit.G, fullScale * Gravity.Standard / WavSamples.Span(layout.Encoding))
                : throw bytes.Error("holds integers; say how many g their full scale is with --full-scale-g");
        }

        var unit = options.Unit ?? layout.Notes.Unit;
        if (unit is null)
        {
            guesses.Add("the floats in the WAV file were taken to be in g; say otherwise with --unit");
        }

        return (unit ?? AccelerationUnit.G, AccelerationUnits.Scale(unit ?? AccelerationUnit.G)
            ?? (options.CountsPerG is { } scale ? Gravity.Standard / scale : throw bytes.Error("is in counts; say how many counts are one g with --counts-per-g")));
    }

    private bool Fill()
    {
        if (bufferAt < bufferEnd)
        {
            return true;
        }

        var left = (layout.Frames - framesRead) * layout.FrameBytes;
        var wanted = (int)Math.Min(buffer.Length, left);
        var read = wanted == 0 ? 0 : stream.ReadAtLeast(buffer.AsSpan(0, wanted), wanted, throwOnEndOfStream: false);
        (bufferAt, bufferEnd) = (0, read / layout.FrameBytes * layout.FrameBytes);
        if (bufferEnd < wanted)
        {
            Counters.Reject(RejectReasons.Truncated);
        }

        return bufferEnd > 0;
    }

    /// <summary>Gathers what is lost before the next sample; true where something is.</summary>
    private bool CollectLoss()
    {
        var gaps = layout.Notes.Gaps;
        var noted = nextGap < gaps.Count && gaps[nextGap].Index == framesRead;
        if (noted)
        {
            missing += gaps[nextGap].Missing;
            loss += gaps[nextGap].Missing;
            nextGap++;
        }

        lossPending |= noted || rejectedBefore > 0;
        loss += rejectedBefore;
        rejectedBefore = 0;
        if (!delivered)
        {
            (lossPending, loss) = (false, 0);
        }

        return lossPending;
    }

    private void ReportLoss(SampleBlock block)
    {
        (block.GapBefore, block.MissingBefore) = (true, loss);
        Counters.Gaps++;
        Counters.MissingSamples += loss;
        (lossPending, loss) = (false, 0);
    }

    /// <summary>Takes whole frames up to the end of the buffer, the next gap or the next sample that is no number.</summary>
    private int Take(SampleBlock block, int at)
    {
        var frames = Math.Min((bufferEnd - bufferAt) / layout.FrameBytes, block.Capacity - at);
        if (nextGap < layout.Notes.Gaps.Count)
        {
            frames = (int)Math.Min(frames, layout.Notes.Gaps[nextGap].Index - framesRead);
        }

        var interleaved = buffer.AsSpan(bufferAt, frames * layout.FrameBytes);
        var good = frames;
        for (var i = 0; i < channels.Length;)
        {
            i += Read(block, interleaved, i, at, frames);
        }

        var largest = Largest(interleaved);
        for (var i = 0; i < channels.Length && !double.IsFinite(largest); i++)
        {
            good = Math.Min(good, Finite.Count(block.Fill(i).Slice(at, frames)));
        }

        if (supply >= 0)
        {
            // Of integers the unit is the channel's full scale.
            WavSamples.Read(interleaved, layout.Encoding, supply, layout.Channels, 1 / WavSamples.Span(layout.Encoding), block.FillSupply().Slice(at, frames));
            block.HasSupply = true;
        }

        if (at == 0)
        {
            block.StartSeconds = Info.RateHz is { } rate ? (framesRead + missing) / rate : 0;
        }

        delivered |= good > 0;
        MarkRails(block, at, good);
        Clipping.Mark(block, at, good, largest);
        var bad = good < frames ? 1 : 0;
        if (bad > 0)
        {
            Counters.Reject(RejectReasons.NanOrInfinite);
            rejectedBefore++;
        }

        bufferAt += (good + bad) * layout.FrameBytes;
        framesRead += good + bad;
        return good;
    }

    /// <summary>Gives by a glance at the bytes what no sample's size exceeds, in m/s², in these channels or others; NaN where it takes more than a glance.</summary>
    private double Largest(ReadOnlySpan<byte> interleaved) => layout.Encoding == WavEncoding.Float32 && BitConverter.IsLittleEndian ? Finite.Largest(interleaved) * Math.Abs(scale)
        : WavSamples.IsInteger(layout.Encoding) ? WavSamples.Span(layout.Encoding) * Math.Abs(scale) : double.NaN;

    /// <summary>Reads one channel, or three that follow one another, and says how many.</summary>
    private int Read(SampleBlock block, ReadOnlySpan<byte> interleaved, int i, int at, int frames)
    {
        if (layout.Encoding == WavEncoding.Float32 && i + 2 < channels.Length && channels[i + 1] == channels[i] + 1 && channels[i + 2] == channels[i] + 2)
        {
            WavSamples.ReadThree(
                interleaved, channels[i], layout.Channels, scale,
                block.Fill(i).Slice(at, frames), block.Fill(i + 1).Slice(at, frames), block.Fill(i + 2).Slice(at, frames));
            return 3;
        }

        WavSamples.Read(interleaved, layout.Encoding, channels[i], layout.Channels, scale, block.Fill(i).Slice(at, frames));
        return 1;
    }

    /// <summary>Marks integers that stand at an end of their range: the converter could say no more.</summary>
    private void MarkRails(SampleBlock block, int at, int count)
    {
        if (!WavSamples.IsInteger(layout.Encoding))
        {
            return;
        }

        var span = WavSamples.Span(layout.Encoding);
        var (low, high) = (-span * scale, (span - 1) * scale);
        var marks = block.FillMarks().Slice(at, count);
        for (var i = 0; i < channels.Length; i++)
        {
            var values = block.Fill(i).Slice(at, count);
            for (var k = 0; k < values.Length; k++)
            {
                if (values[k] >= high || values[k] <= low)
                {
                    marks[k] |= SampleMarks.Clipped;
                }
            }
        }
    }
}
