using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Wav;

namespace StrokeWatch.Outputs.Captures;

/// <summary>A capture that is being written: under another name until it is whole, with what it holds on the disk every few seconds.</summary>
internal sealed class OpenCapture : IDisposable
{
    /// <summary>The end of the name of a capture that is not whole.</summary>
    public const string Partial = ".part";

    private const int BlockFrames = 2048;
    private const double SyncSeconds = 5;

    private readonly string path;
    private readonly SampleRing ring;
    private readonly float[] frames;
    private readonly SampleBlock block;
    private readonly PartialNotes notes;
    private readonly SyncedFile file;
    private readonly WavCaptureWriter writer;
    private readonly List<(AlarmId Id, DateTimeOffset At)> alarms = [];
    private long place;
    private long written;
    private long missing;
    private long lost;
    private long synced;

    /// <summary>Begins one.</summary>
    /// <param name="path">The path it has in the end.</param>
    /// <param name="ring">The samples.</param>
    /// <param name="from">The place of its first frame.</param>
    /// <param name="taken">When the first sample was taken, in UTC.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    public OpenCapture(string path, SampleRing ring, long from, DateTimeOffset taken)
    {
        (this.path, this.ring, place, Begun, Taken) = (path, ring, from, from, taken);
        frames = new float[BlockFrames * ring.Width];
        block = new(ring.Channels, BlockFrames) { RateHz = ring.RateHz, HasSupply = ring.Info.HasSupply };
        notes = new(PartialNotes.Beside(path + Partial));
        try
        {
            file = new(path + Partial);
            writer = new(file, ring.Info.Axes, ring.RateHz, ring.Info.FullScale / Gravity.Standard, ring.Info.Places, taken, ring.Info.HasSupply);
        }
        catch
        {
            file?.Dispose();
            notes.Dispose();
            throw;
        }
    }

    /// <summary>Gets the place of its first frame.</summary>
    public long Begun { get; }

    /// <summary>Gets when its first sample was taken, in UTC.</summary>
    public DateTimeOffset Taken { get; }

    /// <summary>Gets the samples it is written from.</summary>
    public SampleRing Ring => ring;

    /// <summary>Gets the place after its last frame, which another alarm moves.</summary>
    public long End { get; private set; }

    /// <summary>Gets when to wait no longer for frames that do not come, as the clock's time stamp.</summary>
    public long Deadline { get; private set; }

    /// <summary>Adds an alarm; the capture goes on for its sake.</summary>
    public void Add(AlarmId id, DateTimeOffset at, long end, long deadline)
    {
        alarms.Add((id, at));
        notes.Alarm(id, at);
        (End, Deadline) = (Math.Max(End, end), Math.Max(Deadline, deadline));
    }

    /// <summary>Lets it end at a place, for no alarm's sake.</summary>
    public void Until(long end) => End = Math.Max(End, end);

    /// <summary>Writes what has come; true once it is whole.</summary>
    /// <exception cref="IOException">It cannot be written.</exception>
    public bool Step()
    {
        while (place < End)
        {
            var wanted = (int)Math.Min(BlockFrames, End - place);
            var count = ring.Read(ref place, frames.AsSpan(0, wanted * ring.Width), out var overwritten);
            if (overwritten > 0)
            {
                Gap(overwritten);
            }

            if (count == 0 && overwritten == 0)
            {
                break;
            }

            Put(count);
        }

        if (written - synced >= SyncSeconds * ring.RateHz || (synced == 0 && written > 0))
        {
            synced = written;
            notes.Sync();
            file.Flush(flushToDisk: true);
        }

        return place >= End;
    }

    /// <summary>Gives it its name, whole or as far as it has come, and says what it holds.</summary>
    /// <exception cref="IOException">It cannot be written.</exception>
    public IReadOnlyList<AlarmWaveform> Finish()
    {
        var whole = place >= End;
        Dispose();
        File.Move(path + Partial, path, overwrite: true);
        File.Delete(PartialNotes.Beside(path + Partial));
        var length = (written + missing) / ring.RateHz;
        return [.. alarms.Select(alarm => new AlarmWaveform(alarm.Id, alarm.At, Path.GetFileName(path), Taken, length, missing + lost, whole))];
    }

    /// <summary>Closes and removes what there is.</summary>
    public void Abandon()
    {
        try
        {
            Dispose();
        }
        catch (IOException)
        {
            // A disk that is full cannot take the rest; the file goes anyway.
        }

        File.Delete(path + Partial);
        File.Delete(PartialNotes.Beside(path + Partial));
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        try
        {
            writer.Dispose();
        }
        finally
        {
            file.Dispose();
            notes.Dispose();
        }
    }

    private void Put(int count)
    {
        var held = 0;
        for (var i = 0; i < count; i++)
        {
            var frame = frames.AsSpan(i * ring.Width, ring.Width);
            if (SampleRing.Missing(frame[0]) is var gone and >= 0)
            {
                Write(ref held);
                Gap(gone);
                continue;
            }

            for (var channel = 0; channel < ring.Channels; channel++)
            {
                block.Fill(channel)[held] = frame[channel] * Gravity.Standard;
            }

            if (block.HasSupply)
            {
                block.FillSupply()[held] = frame[ring.Channels];
            }

            held++;
        }

        Write(ref held);
    }

    private void Gap(long gone)
    {
        // Before its first sample a capture has no gap: it only begins later.
        if (written > 0)
        {
            (block.GapBefore, block.MissingBefore) = (true, block.MissingBefore + gone);
            missing += gone;
            notes.Gap(written, block.MissingBefore);
        }
        else
        {
            lost += gone;
        }
    }

    private void Write(ref int held)
    {
        if (held == 0)
        {
            return;
        }

        block.SetCount(held);
        writer.Write(block);
        written += held;
        (held, block.GapBefore, block.MissingBefore) = (0, false, 0);
    }
}
