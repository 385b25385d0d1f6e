using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Page;

/// <summary>The newest windows: the measuring thread puts a reference into a slot, readers take what stands there, and nobody waits.</summary>
internal sealed class RecentWindows : IChainListener
{
    /// <summary>How many windows are held: about twenty seconds.</summary>
    public const int Held = 40;

    private readonly Slot?[] slots = new Slot?[Held];
    private long count;

    /// <summary>Gets the windows held, in order.</summary>
    public IReadOnlyList<AssessedWindow> Now => [.. slots.Select((_, i) => Volatile.Read(ref slots[i])).OfType<Slot>().OrderBy(slot => slot.Number).Select(slot => slot.Window)];

    /// <summary>Gets how many windows there have been.</summary>
    public long Count => Volatile.Read(ref count);

    /// <summary>Gets how many clipped samples there have been in windows.</summary>
    public long Clipped { get; private set; }

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        Clipped += window.Reading.ClippedSamples;
        var next = count + 1;
        Volatile.Write(ref slots[(int)((next - 1) % Held)], new(next, window));
        Volatile.Write(ref count, next);
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
    }

    private sealed record Slot(long Number, AssessedWindow Window);
}
