using System.Globalization;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Sensors.Chips;

/// <summary>A chip that runs: a thread of its own empties the chip's store in time and hands frames over; it never waits for the reader.</summary>
/// <remarks>
/// The thread asks for a priority above normal, which Linux grants only to a program that may; what counts is that it does next to nothing and allocates nothing. Once a second it
/// reads identity and settings again: a chip that was swapped, or that lost its settings when its supply dipped, would otherwise go on giving numbers.
/// </remarks>
internal sealed class ChipSource : IByteSource
{
    private const int QueuedFrames = 512;
    private const double LookEverySeconds = 1;
    private const double AnnounceEverySeconds = 60;
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(200);
    private readonly IChipDriver driver;
    private readonly ChipSettings settings;
    private readonly TimeProvider time;
    private readonly ManualResetEvent closing = new(false);
    private readonly ChipDrain drain;
    private readonly ChipFrames frames;
    private readonly FrameQueue queue;
    private readonly Action<TimeSpan>? pause;
    private readonly TimeSpan period;
    private readonly double silence;
    private readonly long begun;
    private readonly Thread? thread;
    private double looked;
    private double announced = double.NegativeInfinity;
    private double heard;

    /// <summary>Takes over a chip that was started for the n-th time; <paramref name="pause"/> stands in for the thread's waits, and then the reader drives it, for tests.</summary>
    public ChipSource(IChipDriver driver, ChipSettings settings, ushort start, TimeProvider time, Action<TimeSpan>? pause = null)
    {
        (this.driver, this.settings, this.time, this.pause) = (driver, settings, time, pause);
        drain = new(settings.Model.FifoSamples + 8);
        frames = new(settings, start);
        queue = new(QueuedFrames, frames.MostBytes);
        var fifo = settings.Model.FifoSamples / settings.Rate.Hz;
        period = TimeSpan.FromSeconds(fifo / BusBudget.DrainsAFifo);
        silence = Math.Max(0.25, 4 * fifo);
        begun = time.GetTimestamp();
        if (pause is null)
        {
            thread = new(Run) { IsBackground = true, Name = settings.Model.Name, Priority = ThreadPriority.AboveNormal };
            thread.Start();
        }
    }

    /// <inheritdoc/>
    public string? Fate { get; private set; }

    /// <summary>Gets the frames that the reader was too late for.</summary>
    public long Dropped => queue.Dropped;

    /// <summary>Gets the chip's temperature in °C when it was last read; null where it has no thermometer.</summary>
    public double? Temperature { get; private set; }

    /// <summary>Gets what the drains counted.</summary>
    public (long Overflows, long Resyncs) Losses => (drain.Overflows, drain.Resyncs);

    private double Now => time.GetElapsedTime(begun).TotalSeconds;

    /// <inheritdoc/>
    public ReadStatus Read(Span<byte> buffer, out int count)
    {
        for (var waited = TimeSpan.Zero; ; waited += pause is null ? Patience : period)
        {
            count = queue.Take(buffer, out var ended);
            if (count > 0 || ended || waited >= Patience)
            {
                return count > 0 ? ReadStatus.Data : ended ? ReadStatus.Closed : ReadStatus.Nothing;
            }

            if (pause is null)
            {
                queue.Wait(Patience);
            }
            else
            {
                pause(period);
                Step();
            }
        }
    }

    /// <summary>Empties the chip's store once and, where it is due, looks whether the chip still is what it was.</summary>
    public void Step()
    {
        if (Fate is not null)
        {
            return;
        }

        try
        {
            Fate = Work();
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or InvalidOperationException or TimeoutException)
        {
            Fate = BusFault.Words(fault);
        }

        if (Fate is not null)
        {
            queue.Close();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _ = closing.Set();
        thread?.Join();
        driver.Dispose();
        queue.Dispose();
        closing.Dispose();
    }

    private string? Work()
    {
        drain.Clear();
        var now = Now;
        if (!driver.Drain(drain))
        {
            return driver.Holds() ?? "the chip says of its store what cannot be: check wiring and bus speed";
        }

        if (drain.Count > 0)
        {
            frames.Samples(drain, now, queue);
            heard = now;
        }

        if (now - looked >= LookEverySeconds || now - heard > silence)
        {
            looked = now;
            if (driver.Holds() is { } changed)
            {
                return $"{changed}: the supply dipped, a wire is loose, or the chip was exchanged; it is set up anew";
            }
        }

        if (now - heard > silence)
        {
            return "the chip answers but takes no samples";
        }

        if (now - announced >= AnnounceEverySeconds)
        {
            announced = now;
            Temperature = driver.Temperature();
            frames.Announce(Temperature is { } degrees ? string.Create(CultureInfo.InvariantCulture, $"{settings.Model.Name}, {degrees:0} °C") : settings.Model.Name, now, queue);
        }

        return null;
    }

    private void Run()
    {
        while (Fate is null && !closing.WaitOne(period))
        {
            Step();
        }
    }
}
