using System.Text;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Sensors.Frames;

/// <summary>The decoder of the framed protocol: it rejects by length, frame, check sum, range and order, in that order.</summary>
internal sealed class FrameDecoder(SourceCounters counters) : ISampleDecoder
{
    private readonly FrameScanner scanner = new(counters);
    private readonly FrameOrder order = new();
    private readonly RateMeter meter = new();
    private readonly byte[] text = new byte[FrameHead.MaxText];
    private int textLength;
    private FrameHead described;
    private SensorAnnouncement? sensor;

    /// <inheritdoc/>
    public int Feed(ReadOnlySpan<byte> bytes) => scanner.Feed(bytes);

    /// <inheritdoc/>
    public void Break() => scanner.Break();

    /// <inheritdoc/>
    public DecodeState Next(SampleRun run)
    {
        while (scanner.TryNext(out var head, out var payload))
        {
            run.Clear();
            if (head.CheckRange() is { } reason)
            {
                counters.Reject(RejectReasons.Name(reason));
                continue;
            }

            var samples = head.HoldsSamples;
            if (samples && !FramePayload.TryDecode(head, payload, run))
            {
                counters.Reject(RejectReasons.Name(RejectReason.Range));
                continue;
            }

            var step = order.Judge(head);
            if (!step.Accepted)
            {
                counters.Reject(RejectReasons.Name(RejectReason.Order));
                continue;
            }

            Describe(head, samples ? text.AsSpan(0, textLength) : payload);
            run.Sensor = sensor;
            run.Restarted = step.Restarted;
            if (samples)
            {
                run.GapBefore = step.Gap;
                run.MissingBefore = step.Missing;
                Measure(head, step);
                run.MeasuredRateHz = meter.RateHz;
            }

            return samples ? DecodeState.Samples : DecodeState.Announcement;
        }

        return DecodeState.None;
    }

    private void Measure(in FrameHead head, in FrameStep step)
    {
        if (step.Restarted || step.Missing is null)
        {
            meter.Restart();
        }

        meter.Note(head.Clock * 1e-6, (long)head.Counter);
    }

    /// <summary>Renews the description only where it differs: the steady state allocates nothing.</summary>
    private void Describe(in FrameHead head, ReadOnlySpan<byte> firmware)
    {
        var sameText = firmware.SequenceEqual(text.AsSpan(0, textLength));
        if (sensor is not null && sameText && head.Axes == described.Axes && head.Sensors == described.Sensors && head.RateMilliHz == described.RateMilliHz
            && head.Scale.Equals(described.Scale) && head.Rail == described.Rail && head.SupplyScale.Equals(described.SupplyScale) && head.SupplyRail == described.SupplyRail)
        {
            return;
        }

        if (!sameText)
        {
            firmware.CopyTo(text);
            textLength = firmware.Length;
        }

        described = head;
        sensor = new(FrameAxes.List(head.Axes), head.RateMilliHz / 1000.0, (double)head.Rail * head.Scale, Encoding.UTF8.GetString(text, 0, textLength))
        {
            Sensors = head.Sensors,
            SupplyFullScale = head.TakesSupply ? (double)head.SupplyRail * head.SupplyScale : null,
        };
    }
}
