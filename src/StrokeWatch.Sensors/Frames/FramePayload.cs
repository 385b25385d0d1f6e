using System.Buffers.Binary;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Sensors.Frames;

/// <summary>The samples of a frame: counts become m/s², and a count near the rail becomes a mark; the voltage beside them becomes volts.</summary>
internal static class FramePayload
{
    /// <summary>Decodes the samples into the run; false where a value is not a number.</summary>
    public static bool TryDecode(in FrameHead head, ReadOnlySpan<byte> payload, SampleRun run)
    {
        var axes = FrameAxes.Count(head.Axes);
        var channels = head.Sensors * axes;
        var size = FrameHead.BytesOf(head.Format);
        var count = head.SampleCount;
        var railFrom = SampleRun.ClippedFrom * head.Rail;
        var marks = run.Marks[..count];
        marks.Fill(Whole(head));
        for (var channel = 0; channel < channels; channel++)
        {
            var values = run[channel];
            var at = channel * size;
            var stride = head.SampleBytes;
            var mark = SampleRun.ClippedMark(channel / axes, head.Sensors);
            for (var i = 0; i < count; i++, at += stride)
            {
                var raw = Value(head.Format, payload[at..]);
                if (!double.IsFinite(raw))
                {
                    return false;
                }

                if (Math.Abs(raw) >= railFrom)
                {
                    marks[i] |= mark;
                }

                values[i] = raw * head.Scale;
            }
        }

        run.Count = count;
        run.HasSupply = head.TakesSupply;
        if (head.TakesSupply)
        {
            Supply(head, payload[(channels * size)..], run);
        }

        return true;
    }

    /// <summary>Takes the voltages; one that is not a number is a voltage that is missing, and costs no sample.</summary>
    private static void Supply(in FrameHead head, ReadOnlySpan<byte> payload, SampleRun run)
    {
        for (var (i, at) = (0, 0); i < run.Count; i++, at += head.SampleBytes)
        {
            var raw = Value(head.Format, payload[at..]);
            run.Supply[i] = double.IsFinite(raw) ? raw * head.SupplyScale : double.NaN;
        }
    }

    /// <summary>Gives the mark of all samples of a frame: what the device itself knows of clipping.</summary>
    private static SampleMarks Whole(in FrameHead head)
    {
        var mark = (head.Flags & FrameFlags.Clipped) != 0 ? SampleMarks.Clipped : SampleMarks.None;
        for (var sensor = 0; sensor < head.Sensors; sensor++)
        {
            mark |= (head.ClippedSensors >> sensor & 1) != 0 ? SampleRun.ClippedMark(sensor, head.Sensors) : SampleMarks.None;
        }

        return mark;
    }

    private static double Value(SampleFormat format, ReadOnlySpan<byte> bytes) => format switch
    {
        SampleFormat.Int16 => BinaryPrimitives.ReadInt16LittleEndian(bytes),

        // The shift up and down again carries the sign of 24 bits into 32.
        SampleFormat.Int24 => ((bytes[0] << 8) | (bytes[1] << 16) | (bytes[2] << 24)) >> 8,
        _ => BinaryPrimitives.ReadSingleLittleEndian(bytes),
    };
}
