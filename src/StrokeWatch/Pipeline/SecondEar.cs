using System.Runtime.ExceptionServices;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Pipeline;

/// <summary>
/// Listens to the windows of a capture on a second processor while the next ones are measured, and gives all on in the order in which it came, on the measuring thread.
/// What is heard hangs on its window alone, and what has changed since those before is told in their order, so that the readings are those of a single thread, to the bit.
/// </summary>
internal sealed class SecondEar : IWindowSink, IListenLater, IDisposable
{
    private const int Most = 32;

    /// <summary>The thread is woken once for so many windows: waking costs about what hearing one does.</summary>
    private const int Wake = 12;

    private const int Empty = 0, Waiting = 1, Taken = 2, Heard = 3;

    private readonly Slot[] slots = [.. Enumerable.Range(0, Most).Select(_ => new Slot())];
    private readonly WindowEar own = new();
    private readonly ManualResetEventSlim work = new(false, spinCount: 0);
    private readonly Thread thread;
    private IWindowSink? sink;
    private long head;
    private long tail;
    private int unsaid;
    private volatile bool closing;

    private SecondEar()
    {
        thread = new Thread(Run) { IsBackground = true, Name = "second ear" };
        thread.Start();
    }

    /// <summary>Makes one where a second processor is there to listen; null where there is not.</summary>
    public static SecondEar? Make() => Environment.ProcessorCount > 1 ? new() : null;

    /// <summary>Makes one whatever processors there are.</summary>
    internal static SecondEar MakeAnyway() => new();

    /// <summary>Says to whom all is given on.</summary>
    public void GiveTo(IWindowSink given) => sink = given;

    /// <inheritdoc/>
    public KeptLine Next() => slots[tail % Most].Line;

    /// <inheritdoc/>
    public void Window(in WindowReading reading)
    {
        var slot = slots[tail % Most];
        (slot.Reading, slot.Listened) = (reading, reading.Unheard is not null);
        Volatile.Write(ref slot.State, reading.Unheard is null ? Heard : Waiting);
        Volatile.Write(ref tail, tail + 1);
        if (++unsaid >= Wake)
        {
            unsaid = 0;
            work.Set();
        }

        // There is always room for the next one.
        while (head < tail && (tail - head == Most || Volatile.Read(ref slots[head % Most].State) == Heard))
        {
            Give();
        }
    }

    /// <inheritdoc/>
    public void Several(in SeveralReading reading)
    {
        Finish();
        sink!.Several(reading);
    }

    /// <inheritdoc/>
    public void Transient(CaughtTransient transient)
    {
        Finish();
        sink!.Transient(transient);
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading reading)
    {
        Finish();
        sink!.Decay(reading);
    }

    /// <inheritdoc/>
    public void Start(in StartReading reading)
    {
        Finish();
        sink!.Start(reading);
    }

    /// <summary>Gives on all that came so far.</summary>
    public void Finish()
    {
        while (head < tail)
        {
            Give();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        closing = true;
        work.Set();
        thread.Join();
        work.Dispose();
    }

    /// <summary>Gives on the oldest window; listens to it, or to one after it, where it has not been heard yet.</summary>
    private void Give()
    {
        var slot = slots[head % Most];
        for (var next = head; Volatile.Read(ref slot.State) != Heard; next++)
        {
            if (next < tail)
            {
                slots[next % Most].Hear(own);
            }
            else
            {
                Thread.SpinWait(20);
                next = head;
            }
        }

        var (reading, trouble, listened) = (slot.Reading, slot.Trouble, slot.Listened);
        (slot.State, slot.Trouble) = (Empty, null);
        reading = listened && trouble is null ? slot.Line.Compare(reading) : reading;
        Volatile.Write(ref head, head + 1);
        if (trouble is not null)
        {
            ExceptionDispatchInfo.Throw(trouble);
        }

        sink!.Window(reading);
    }

    private void Run()
    {
        var ear = new WindowEar();
        var next = 0L;
        while (!closing)
        {
            work.Wait();
            work.Reset();
            for (next = Math.Max(next, Volatile.Read(ref head)); next < Volatile.Read(ref tail) && !closing; next++)
            {
                slots[next % Most].Hear(ear);
            }
        }
    }

    private sealed class Slot
    {
        public readonly KeptLine Line = new();
        public WindowReading Reading;
        public Exception? Trouble;
        public bool Listened;
        public int State;

        /// <summary>Listens to the window where nobody else has taken it.</summary>
        public void Hear(WindowEar ear)
        {
            if (Interlocked.CompareExchange(ref State, Taken, Waiting) != Waiting)
            {
                return;
            }

            try
            {
                Reading = ear.Listen(Reading, Line);
            }
            catch (Exception trouble)
            {
                Trouble = trouble;
            }

            Volatile.Write(ref State, Heard);
        }
    }
}
