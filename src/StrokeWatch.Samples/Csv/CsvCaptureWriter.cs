using System.Globalization;
using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Csv;

/// <summary>Writes captures as text: <c>t_s,x_g,y_g,z_g</c> with the axes there are, or <c>t_s,front_x_g…</c> of several sensors, and <c>supply_v</c> last where the supply's voltage is written; nine significant digits, gaps as jumps of time.</summary>
public sealed class CsvCaptureWriter : ICaptureWriter
{
    /// <summary>The longest time, and the longest value with its comma.</summary>
    private const int MostTimeBytes = 64, MostValueBytes = 32;

    private readonly Stream stream;
    private readonly int channels;
    private readonly double rateHz;
    private readonly bool supply;
    private readonly byte[] buffer = new byte[1 << 16];
    private int held;
    private bool closed;

    /// <summary>Begins a file, replacing one that is there.</summary>
    /// <param name="path">The file to write.</param>
    /// <param name="axes">The axis of each channel: 1 to 3 of them, or up to 64 of several sensors.</param>
    /// <param name="rateHz">The rate in Hz, above 0, for blocks that do not say theirs.</param>
    /// <param name="places">The place of each channel's sensor; none where there is one sensor.</param>
    /// <param name="recorded">When the first sample is taken; null where it is not to be said.</param>
    /// <param name="supply">Whether the blocks' supply voltage is written too.</param>
    public CsvCaptureWriter(string path, IReadOnlyList<Axis> axes, double rateHz, IReadOnlyList<SensorPlace>? places = null, DateTimeOffset? recorded = null, bool supply = false)
        : this(new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.Read, 1), axes, rateHz, places, recorded, supply)
    {
    }

    /// <summary>Begins a file in a stream, which is closed with the writer.</summary>
    public CsvCaptureWriter(Stream stream, IReadOnlyList<Axis> axes, double rateHz, IReadOnlyList<SensorPlace>? places = null, DateTimeOffset? recorded = null, bool supply = false)
    {
        ChannelNames.Check(axes, places);
        if (!(double.IsFinite(rateHz) && rateHz > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(rateHz), rateHz, "A rate is a number above 0.");
        }

        this.stream = stream;
        this.rateHz = rateHz;
        this.supply = supply;
        channels = axes.Count;
        var header = (recorded is { } date ? $"# recorded: {RecordedDate.Text(date)}\n" : "") + "t_s," + string.Join(',', ChannelNames.Of(axes, places).Select(name => name + "_g")) + (supply ? ",supply_v\n" : "\n");
        held = Encoding.ASCII.GetBytes(header, buffer);
    }

    /// <inheritdoc/>
    public void Write(SampleBlock block)
    {
        ObjectDisposedException.ThrowIf(closed, this);
        ArgumentOutOfRangeException.ThrowIfNotEqual(block.Channels, channels, nameof(block));
        var step = 1 / (block.RateHz ?? rateHz);
        for (var i = 0; i < block.Count; i++)
        {
            if (!IsFinite(block, i))
            {
                continue;
            }

            if (buffer.Length - held < MostTimeBytes + ((channels + 1) * MostValueBytes))
            {
                Empty();
            }

            // Nanoseconds: exact for any span that a clock keeps, and small beside the step of any sensor.
            Put(block.StartSeconds + (i * step), "F9");
            for (var c = 0; c < channels; c++)
            {
                buffer[held++] = (byte)',';
                Put(block[c][i] / Gravity.Standard, "G9");
            }

            PutSupply(block, i);
            buffer[held++] = (byte)'\n';
        }
    }

    /// <inheritdoc/>
    public void Flush()
    {
        Empty();
        stream.Flush();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (!closed)
        {
            closed = true;
            Empty();
            stream.Dispose();
        }
    }

    private static bool IsFinite(SampleBlock block, int sample)
    {
        for (var c = 0; c < block.Channels; c++)
        {
            if (!double.IsFinite(block[c][sample]))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Puts the supply's voltage; a cell stays empty where a sample lacks it.</summary>
    private void PutSupply(SampleBlock block, int sample)
    {
        if (!supply)
        {
            return;
        }

        buffer[held++] = (byte)',';
        if (block.HasSupply && double.IsFinite(block.Supply[sample]))
        {
            Put(block.Supply[sample], "G9");
        }
    }

    private void Put(double value, string format)
    {
        value.TryFormat(buffer.AsSpan(held), out var written, format, CultureInfo.InvariantCulture);
        held += written;
    }

    private void Empty()
    {
        stream.Write(buffer, 0, held);
        held = 0;
    }
}
