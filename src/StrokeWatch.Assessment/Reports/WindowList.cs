using System.Collections;

namespace StrokeWatch.Assessment.Reports;

/// <summary>A growing list of assessed windows in pieces that are never copied: about 130 bytes a window.</summary>
internal sealed class WindowList : IReadOnlyList<AssessedWindow>
{
    private const int Piece = 512;
    private readonly List<KeptWindow[]> pieces = [];

    /// <inheritdoc/>
    public int Count { get; private set; }

    /// <inheritdoc/>
    public AssessedWindow this[int index]
    {
        get
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)index, (uint)Count);
            return pieces[index / Piece][index % Piece].Window;
        }
    }

    /// <summary>Gives a window as it is kept, which is cheaper to look at than to unpack.</summary>
    public ref readonly KeptWindow Kept(int index) => ref pieces[index / Piece][index % Piece];

    /// <summary>Gives one value of all windows in order, without those that lack it.</summary>
    public IEnumerable<double> Values(KeptValue value)
    {
        for (var i = 0; i < Count; i++)
        {
            if (value(Kept(i)) is { } known)
            {
                yield return known;
            }
        }
    }

    /// <summary>Adds a window.</summary>
    public void Add(in AssessedWindow window)
    {
        if (Count == pieces.Count * Piece)
        {
            pieces.Add(new KeptWindow[Piece]);
        }

        pieces[Count / Piece][Count % Piece] = new(window);
        Count++;
    }

    /// <inheritdoc/>
    public IEnumerator<AssessedWindow> GetEnumerator()
    {
        for (var i = 0; i < Count; i++)
        {
            yield return this[i];
        }
    }

    /// <inheritdoc/>
    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
